#pragma once

#include "layout/plan.hpp"
#include "layout/solve.hpp"
#include "workshop/buying/buying.hpp"
#include "workshop/making/cost.hpp"
#include "workshop/making/designs.hpp"
#include "workshop/stock/catalogue.hpp"
#include "workshop/stock/stockroom.hpp"

#include <functional>
#include <string>
#include <vector>

namespace barrow::print {

/// The JSON document of each answer: one object with "kind" and "version": 1, money as decimal
/// strings, lengths as numbers in millimetres, ending in a line break. Fields are only ever added.
std::string document(const workshop::Stock& stock);
std::string document(const workshop::OffcutBox& box);
std::string document(const workshop::ShopValue& value);
std::string document(const std::vector<workshop::LogLine>& lines);
std::string document(const std::vector<workshop::SettingLine>& lines);
std::string document(const std::vector<store::Supplier>& suppliers);
std::string document(const std::vector<workshop::MaterialLine>& materials,
                     const workshop::Settings& settings);
std::string document(const std::vector<store::StoredDesign>& designs);
std::string document(const design::Worked& worked);
std::string document(const workshop::Reorder& reorder);
std::string document(const workshop::Costing& costing);
std::string check_document(const std::vector<std::string>& problems);

/// How a job's whole numbers are written: a measure and a cost as exact decimal text.
struct LayoutNumbers {
    std::function<std::string(layout::Measure)> measure;
    std::function<std::string(layout::Cost)> cost;
};

/// The document of `barrow layout`.
std::string layout_document(const layout::Job& job, const layout::Outcome& outcome,
                            layout::Effort effort, const LayoutNumbers& numbers);

} // namespace barrow::print
