// Words of the facts a schedule goes by, and the sentences of the cautions.

#include "foretone/material/order.hpp"

#include <stdexcept>
#include <string>
#include <utility>

namespace foretone::material {
namespace {

constexpr std::array<std::string_view, 4> sure_words = {"published", "practice", "stated", "conflicting"};

constexpr std::array<std::pair<std::string_view, std::string_view>, 17> texts = {{
    {"oily-rags",
     "Rags, paper and pads wet with drying oil heat up by themselves and catch fire. Spread each flat outdoors until "
     "hard, or "
     "drown it in a lidded metal "
     "can of water. Never heap, never bin."},
    {"flammable",
     "Solvent vapor burns and creeps along the floor to any spark: no flames, pilot lights, switches or hot work until "
     "it has "
     "cleared."},
    {"vapor",
     "Ventilate with fresh air, and wear the respirator and cartridges that the maker's data sheet names; wear "
     "gloves."},
    {"dust",
     "Sanding dust and dry powders harm lungs, and fine dust can explode: collect at the tool, wear a mask, keep it "
     "from "
     "sparks."},
    {"colorant",
     "Some dyes and pigments are hazardous when breathed, swallowed or soaked in through skin: weigh with gloves and "
     "mask, label "
     "every "
     "jar. Never use dichromates: they cause cancer."},
    {"isocyanate",
     "Two-part urethane hardeners are isocyanates. They sensitise for life: leave them to licensed shops with supplied "
     "air."},
    {"peroxide",
     "Strong peroxide burns skin and eyes, whitens skin at once and feeds fire: goggles, gloves, apron, no metal pots, "
     "no rags left lying; mix only what is used and never close it up."},
    {"lye",
     "Lye and lime blind: goggles, long gloves, apron; lye into water, never water into lye; have running water and "
     "vinegar at hand, keep it off aluminum. Its dust on dry wood still burns when sanded."},
    {"chlorine",
     "Never mix chlorine bleach with acids, vinegar or ammonia: it gives off poison gas. Gloves, goggles, fresh air."},
    {"fire",
     "Burn wood outdoors, on bare ground away from anything that burns, water at hand; watch it for hours: char "
     "smoulders."},
    {"acid-dust",
     "Oxalic acid is poisonous and its dried crystals are worse in the lungs: gloves and goggles wet, no dry sanding "
     "before it is rinsed out, mask."},
    {"ammonia",
     "Strong ammonia blinds and stops breath: a sealed tent outdoors, full face mask with the cartridge its data sheet "
     "names, someone within call. Household ammonia is safer and slower."},
    {"data-sheet", "The maker's data sheet comes first: where it says otherwise than this page, follow it."},
    {"voc-waste",
     "What may be sprayed, how much solvent may go into the air and how leftovers are thrown away is settled by local "
     "rule."},
    {"food-toy",
     "No claim is made that any finish here is fit for food or for toys; that is for tests such as EN 71-3 and ASTM "
     "F963 on the "
     "finished piece."},
    {"sample", "Make one board, the whole schedule on the same wood, before the job."},
    {"local-codes", "All of this defers to local codes and to licensed practice."},
}};

}  // namespace

std::string_view word(Sure sure) { return sure_words[static_cast<std::size_t>(sure)]; }

std::optional<Sure> sure_from(std::string_view text) {
    for (std::size_t i = 0; i < sure_words.size(); ++i)
        if (sure_words[i] == text) return static_cast<Sure>(i);
    return std::nullopt;
}

Sure sure_of(Mark mark) {
    if (mark <= Mark::fitted) return Sure::published;
    return mark == Mark::practice ? Sure::practice : Sure::stated;
}

std::string_view caution_text(std::string_view word) {
    for (const auto& [id, text] : texts)
        if (id == word) return text;
    throw std::invalid_argument("caution_text: no caution '" + std::string(word) + "'");
}

}  // namespace foretone::material
