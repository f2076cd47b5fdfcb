#pragma once

#include "layout/job.hpp"
#include "store/stock/catalogue.hpp"
#include "store/stock/offcuts.hpp"
#include "workshop/shared/context.hpp"
#include "workshop/shared/settings.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace barrow::workshop {

/// Where an offcut lies, and a note; empty texts keep what is, "-" empties. No entry in the book:
/// nothing moved. Throws base::Error (Kind::bad_input) for a label there is not.
store::Offcut describe_offcut(Context& context, const std::string& label, const std::string& place,
                              const std::string& note);

/// Offcuts made of something, with their new labels.
struct NewOffcuts {
    std::int64_t posting = 0;
    std::vector<store::OffcutOnHand> offcuts;
    store::Material material;
};

/// Reads a size as the form has it: "120mm x 80mm", "40cm", "6" (loops); bare lengths as
/// read_measure does. Throws base::Error (Kind::bad_input).
base::StockSize read_size(base::Form form, const std::string& text, std::optional<base::Unit> bare,
                          const std::string& where);

/// Cuts an offcut into smaller ones, each with a label of its own; the old label is gone. Their
/// value is that of the old one, shared by area: what is lost bears none. Throws base::Error
/// (Kind::refused) when the sizes do not lie in the old one by straight cuts, or when a planned
/// batch has it reserved.
NewOffcuts split_offcut(Context& context, const std::string& label,
                        const std::vector<std::string>& sizes);

/// Logs an offcut the book does not know: a strip thought waste, found in the bin. Its quantity
/// comes out of what went into journals (or a batch in work) of that material; its value is
/// nothing, for the journals have paid for it. Throws base::Error (Kind::refused) when no lot of
/// the material had that much to lose.
NewOffcuts keep_found(Context& context, const std::string& material, const std::string& size,
                      const std::string& place);

} // namespace barrow::workshop
