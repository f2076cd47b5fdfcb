#include "print/making/fits.hpp"

#include "print/json/values.hpp"

namespace barrow::print {

std::string document(const workshop::Fits& fits) {
    Json document = begin("fits");
    document["currency"] = fits.settings.currency.code;
    document["fits"] = Json::array();
    for (const workshop::Fit& line : fits.lines)
        document["fits"].push_back(
            {{"offcut", line.offcut},
             {"material", line.material},
             {"size", size_json(line.form, line.size)},
             {"design", line.design},
             {"part", line.part},
             {"pieces", line.pieces},
             {"used_percent", number(base::to_decimal(line.used * base::Rational(100), 2))},
             {"value", base::to_text(line.value, fits.settings.currency)},
             {"age_days", line.age_days}});
    document["nothing_fits"] = fits.nothing_fits;
    return finished(document);
}

} // namespace barrow::print
