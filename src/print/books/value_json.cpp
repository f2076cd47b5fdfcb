#include "print/books/value.hpp"

#include "print/json/values.hpp"

namespace barrow::print {

std::string document(const workshop::ShopValue& value) {
    Json document = begin("value");
    document["currency"] = value.settings.currency.code;
    const auto put = [&](const char* name, base::Money amount) {
        document[name] = base::to_text(amount, value.settings.currency);
    };
    put("received", value.received);
    put("on_shelf", value.on_shelf);
    put("in_offcuts", value.in_offcuts);
    put("in_work", value.in_work);
    put("in_journals", value.in_journals);
    put("sold", value.sold);
    put("written_off", value.written_off);
    put("difference", value.difference);
    return finished(document);
}

} // namespace barrow::print
