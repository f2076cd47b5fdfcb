#include "design/ready/ready.hpp"
#include "design/ready/texts.hpp"

#include <array>

namespace barrow::design {

// Usual values are common practice, no source, unless a binding says otherwise (see binding/). The
// material codes of a calculator stand for nothing: no shop is asked.

std::span<const ReadyDesign> ready_bases() {
    static const std::array<ReadyDesign, 8> all = {{
        {"wire", "envelopes on a wire in a folded cover with a closing flap",
         ready_text("bases/wire")},
        {"ribbon", "folded pages of two envelopes, tied in by ribbon", ready_text("bases/ribbon")},
        {"sewn", "folded sheets sewn through the spine of a soft cover", ready_text("bases/sewn")},
        {"case", "folded sheets sewn, with endpapers, in hard covers of cloth or paper",
         ready_text("bases/case")},
        {"pamphlet", "one section sewn into a card cover", ready_text("bases/pamphlet")},
        {"rings", "leaves on rings in a folded cover", ready_text("bases/rings")},
        {"cloth", "envelopes tied by ribbon into hard covers, the cloth turned in",
         ready_text("bases/cloth")},
        {"square", "a small one of square envelopes, pockets glued one over the other",
         ready_text("bases/square")},
    }};
    return all;
}

std::span<const ReadyDesign> calculators() {
    static const std::array<ReadyDesign, 9> all = {{
        {"cover", "the cover round envelopes, with its folds", ready_text("calculators/cover")},
        {"thickness", "how thick a filled journal is, and the wire that holds it",
         ready_text("calculators/thickness")},
        {"wire", "loops, holes and size of a wire", ready_text("calculators/wire")},
        {"ribbon", "pages tied in by ribbon", ready_text("calculators/ribbon")},
        {"sewn", "stations and thread of sections sewn through the fold",
         ready_text("calculators/sewn")},
        {"rings", "holes and size of rings", ready_text("calculators/rings")},
        {"paper", "grammage, caliper and bulk", ready_text("calculators/paper")},
        {"pounds", "basis weight into grammage", ready_text("calculators/pounds")},
        {"envelope", "net of a plain envelope, and how many a sheet gives",
         ready_text("calculators/envelope")},
    }};
    return all;
}

} // namespace barrow::design
