#include "workshop/books/shop_file.hpp"

#include "base/error.hpp"
#include "store/checks/copies.hpp"
#include "store/file/settings.hpp"
#include "store/ledger/transaction.hpp"
#include "workshop/shared/settings.hpp"

#include <fmt/format.h>

#include <system_error>

namespace barrow::workshop {
namespace {

namespace fs = std::filesystem;

void make_folder(const fs::path& path) {
    const fs::path folder = path.parent_path();
    if (folder.empty()) return;
    std::error_code failed;
    fs::create_directories(folder, failed);
    if (failed)
        throw base::Error(base::Kind::machine, fmt::format("the folder {} cannot be made: {}",
                                                           folder.string(), failed.message()));
}

} // namespace

store::Database init(const fs::path& path,
                     const std::vector<std::pair<std::string, std::string>>& given) {
    // Understood before anything is written, so that a slip leaves no shop behind.
    Settings settings;
    for (const auto& [name, value] : given) apply_setting(settings, name, value);
    if (settings.cost_order != CostOrder::first_in_first_out)
        throw base::Error(base::Kind::usage, "the cost order is decided in the open shop",
                          "after init: barrow settings cost-order moving-average");
    make_folder(path);
    store::Database database = store::Database::create(path);
    store::write(database, store::Mode::commit, [&] {
        for (const SettingLine& line : describe(settings))
            if (line.name != "cost-order") store::put_setting(database, line.name, line.value);
    });
    return database;
}

void backup(store::Database& database, const fs::path& to) {
    if (fs::exists(to))
        throw base::refused(fmt::format("{} exists already", to.string()),
                            "a copy is never written over another: choose a new name");
    store::copy_to(database, to);
}

Restored restore(const fs::path& path, const fs::path& from, const std::string& stamp) {
    store::verify_copy(from);
    make_folder(path);
    Restored restored;
    if (fs::exists(path)) {
        restored.kept = path;
        restored.kept += ".replaced-" + stamp;
        if (fs::exists(restored.kept))
            throw base::refused(fmt::format("{} exists already", restored.kept.string()),
                                "wait a second and try again");
    }
    store::put_in_place(from, path, restored.kept);
    return restored;
}

} // namespace barrow::workshop
