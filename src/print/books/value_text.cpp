#include "print/books/value.hpp"

#include "print/write/terminal.hpp"

namespace barrow::print {

Blocks blocks(const workshop::ShopValue& value) {
    const auto fact = [&](const char* name, base::Money amount) {
        return Fact{name, money(amount, value.settings.currency), {}, false};
    };
    Facts facts{"Where the money is", value.settings.currency.code, {}};
    facts.groups.push_back({{}, {fact("Received from suppliers", value.received)}});
    facts.groups.push_back(
        {{},
         {fact("On the shelf", value.on_shelf), fact("In offcuts", value.in_offcuts),
          fact("In work", value.in_work), fact("In finished journals", value.in_journals),
          fact("Sold", value.sold), fact("Written off", value.written_off)}});
    facts.groups.push_back({{}, {fact("Difference", value.difference)}});
    Blocks blocks("Where the money is");
    blocks.add(facts);
    blocks.add(Text{"Materials only: labour and overheads are added to a journal's cost, but were "
                    "never received."});
    return blocks;
}

std::string screen(const workshop::ShopValue& value) {
    return terminal(blocks(value));
}

} // namespace barrow::print
