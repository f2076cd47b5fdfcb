#include "workshop/books/shop_file.hpp"

#include "base/error.hpp"
#include "store/checks/copies.hpp"
#include "store/file/settings.hpp"
#include "store/ledger/transaction.hpp"
#include "workshop/shared/settings.hpp"
#include "workshop/stock/stockroom.hpp"

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
                     const std::vector<std::pair<std::string, std::string>>& given,
                     const base::Date& today, const std::string& recorded_at) {
    // Understood before anything is written, so that a slip leaves no shop behind.
    Settings settings;
    for (const auto& [name, value] : given) apply_setting(settings, name, value);
    if (path.empty() || path == ":memory:")
        throw base::Error(base::Kind::usage, "a shop is kept in a file",
                          "name the file with --shop FILE");
    make_folder(path);
    return store::Database::create(path, [&](store::Database& made) {
        store::write(made, store::Mode::commit, [&] {
            for (const SettingLine& line : describe(settings))
                if (line.name != "cost-order") store::put_setting(made, line.name, line.value);
        });
        Context context{made, today, recorded_at};
        if (settings.cost_order != CostOrder::first_in_first_out)
            change_setting(context, "cost-order", std::string(name_of(settings.cost_order)));
    });
}

void backup(store::Database& database, const fs::path& to) {
    store::copy_to(database, to);
}

Restored restore(const fs::path& path, const fs::path& from, const std::string& stamp) {
    make_folder(path);
    // Behind a link the file itself is replaced, and what it held is kept beside the file.
    std::error_code not_there;
    const fs::path linked = fs::canonical(path, not_there);
    const fs::path& file = not_there ? path : linked;
    Restored restored;
    restored.kept = file;
    restored.kept += ".replaced-" + stamp;
    if (!store::put_in_place(from, file, restored.kept)) restored.kept.clear();
    return restored;
}

} // namespace barrow::workshop
