#pragma once

#include "workshop/stock/receive.hpp"

#include <string>
#include <vector>

namespace barrow::workshop {

/// Books a delivery that may answer orders of the book: see receive in stock/receive.hpp.
std::vector<Received> receive(Context& context, const std::vector<Row>& rows,
                              costing::ShareBy share_by);

/// Something bought, in the words of the person who bought it; what is empty was not said.
struct Purchase {
    std::string name;     ///< of the material; the code of one that the shop has already will do
    std::string code;     ///< else made of the name
    std::string sheet;    ///< "8in x 8in": it is cut from sheets
    std::string reel;     ///< "25 m": it is cut from reels
    std::string strip;    ///< "34": loops of a strip of wire
    std::string bottle;   ///< "250 ml", "1 kg": it is poured
    std::string size;     ///< "110mm x 155mm": of an envelope, a tag
    std::string caliper;  ///< thickness of one, or of the paper it is made of
    std::string pitch;    ///< of wire: "2:1"
    std::string diameter; ///< of wire or rings
    std::string pack;     ///< things, sheets, reels or strips in a pack; 1
    std::string packs;    ///< packs bought; 1
    std::string paid;     ///< for all of it; else the pack price that is known
    std::string supplier; ///< code
    std::string date;
    std::string note;
};

/// What buying did.
struct BoughtNow {
    bool is_new = false; ///< the material was not known before
    Received received;
};

/// Makes the material, if the shop has none of that code, and books what was bought of it, both or
/// neither. A new material keeps as its pack price what one pack was paid. Throws base::Error as
/// keep_materials and receive; Kind::usage when two forms are named.
BoughtNow buy(Context& context, const Purchase& purchase);

} // namespace barrow::workshop
