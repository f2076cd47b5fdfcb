#include "store/small_book.hpp"

namespace barrow::test {
namespace {

std::int64_t receive(store::Database& database, std::int64_t posting, std::int64_t material,
                     base::StockSize unit, std::int64_t units, std::int64_t minor) {
    store::Lot lot;
    lot.posting_id = posting;
    lot.material_id = material;
    lot.unit = unit;
    lot.quantity = units * static_cast<std::int64_t>(unit.measure());
    lot.cost = base::Money::of_minor(minor);
    lot.received_on = base::read_date("2027-03-01", "");
    const std::int64_t id = store::add_lot(database, lot);
    move(database, posting, "receive", id, store::outside, id, lot.quantity, minor);
    return id;
}

std::int64_t add(store::Database& database, const std::string& code, base::Form form,
                 std::int64_t width) {
    store::Material material;
    material.code = code;
    material.name = code;
    material.form = form;
    material.fresh = {width, 1};
    return store::add_material(database, material);
}

} // namespace

std::int64_t post(store::Database& database, const std::string& kind, const std::string& day) {
    store::Posting posting;
    posting.kind = kind;
    posting.made_on = base::read_date(day, "");
    posting.recorded_at = day + "T10:00:00Z";
    return store::add_posting(database, posting);
}

void move(store::Database& database, std::int64_t posting, const std::string& kind,
          std::int64_t lot, std::int64_t from, std::int64_t to, std::int64_t quantity,
          std::int64_t minor) {
    store::Movement movement;
    movement.kind = kind;
    if (lot != 0) movement.lot = lot;
    movement.from = from;
    movement.to = to;
    movement.quantity = quantity;
    movement.value = base::Money::of_minor(minor);
    store::MovementWriter(database, posting).move(movement);
}

store::Material sheet_material(const std::string& code) {
    store::Material material;
    material.code = code;
    material.name = code + " paper";
    material.form = base::Form::sheet;
    material.fresh = {100, 80};
    return material;
}

SmallBook::SmallBook(const std::filesystem::path& path) : database(store::Database::create(path)) {
    paper = store::add_material(database, sheet_material("PAPER"));
    ribbon = add(database, "RIBBON", base::Form::length, 1000);
    beads = add(database, "BEADS", base::Form::count, 1);
    received = post(database, "receive", "2027-03-01");
    paper_lot = receive(database, received, paper, {100, 80}, 5, 500);
    ribbon_lot = receive(database, received, ribbon, {1000, 1}, 2, 320);
    beads_lot = receive(database, received, beads, {1, 1}, 40, 360);
    work = store::add_holder(database, "batch");
    used = post(database, "work");
    move(database, used, "use", paper_lot, paper_lot, work, sheet_area, 100);
    store::Offcut half;
    half.posting_id = used;
    half.material_id = paper;
    half.lot_id = paper_lot;
    half.size = {100, 40};
    half.kept_on = base::read_date("2027-03-06", "");
    offcut = store::add_offcut(database, half).id;
    move(database, used, "keep", paper_lot, work, offcut, sheet_area / 2, 50);
    spoiled = post(database, "write off", "2027-03-07");
    move(database, spoiled, "write_off", beads_lot, beads_lot, store::written_off, 4, 36);
}

} // namespace barrow::test
