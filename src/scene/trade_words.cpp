// Words of the trade are wider than a library's names: "danish oil" is no one recipe but oil and varnish thinned to be
// wiped on, and a word's letters are nearer to entries that are something else (stain-oil). So they are looked up
// before letters are compared. Usage is common practice; nothing is taken for what was read, it is only said.

#include "foretone/scene/trade_words.hpp"

#include <algorithm>

#include "foretone/base/text.hpp"
#include "foretone/scene/problem.hpp"

namespace foretone::scene {
namespace {

struct TradeWord {
    std::string_view words;  // parted by ';'
    std::string_view ids;    // parted by ';', the likeliest first
};

constexpr TradeWord trade_words[] = {
    {"danish oil;wiping oil;oil varnish mix;teak oil", "oil-varnish-blend;wipe-on-varnish"},
    {"oil;finishing oil;wood oil", "tung;boiled-linseed;oil-varnish-blend;hard-wax-oil"},
    {"blo;linseed;linseed oil;boiled linseed oil;flax oil", "boiled-linseed"},
    {"tung oil;china wood oil", "tung"},
    {"hardwax;hardwax oil;hard wax;oil wax;wax oil", "hard-wax-oil"},
    {"wax;beeswax;carnauba;carnauba wax;furniture wax", "paste-wax"},
    {"poly;polyurethane;pu", "oil-polyurethane;waterborne-polyurethane"},
    {"wipe on poly;wiping varnish;wipe on polyurethane", "wipe-on-varnish"},
    {"spar varnish;alkyd;alkyd varnish;long oil varnish;yacht varnish", "oil-varnish"},
    {"lacquer;nitro;nitrocellulose;nc lacquer", "nitrocellulose-lacquer;precatalyzed-lacquer"},
    {"precat;pre cat;precat lacquer;pre catalyzed lacquer", "precatalyzed-lacquer"},
    {"conversion varnish;post cat;postcat lacquer;acid cured lacquer;cv", "conversion-lacquer"},
    {"2k;2k poly;2k urethane;2k pu;two part poly;two component polyurethane", "two-component-urethane"},
    {"uv;uv lacquer;uv finish", "uv-clear"},
    {"waterborne;waterborne clear;water based clear;clear waterborne;water based;acrylic;waterbased poly;water based "
     "poly",
     "waterborne-acrylic;waterborne-polyurethane"},
    {"shellac;french polish;dewaxed shellac", "blonde-shellac;orange-shellac;super-blonde-shellac"},
    {"sanding sealer;sealer", "vinyl-sealer;thin-wash-coat;blonde-shellac"},
    {"wash coat;washcoat", "thin-wash-coat"},
    {"milk paint;casein paint", "casein"},
    {"denatured alcohol;methylated spirits;meths;ethanol;spirit", "alcohol"},
    {"white spirit;turpentine;turps;paint thinner", "mineral-spirits"},
    {"thinner;thinners", "lacquer-thinner;mineral-spirits"},
    {"maple", "hard-maple;soft-maple"},
    {"oak", "white-oak;red-oak"},
    {"rock maple;sugar maple", "hard-maple"},
    {"black walnut", "walnut"},
    {"fir", "silver-fir;douglas-fir"},
    {"scots pine", "pine"},
    {"fuming;ammonia", "ammonia-fuming"},
    {"ebonizing;iron;vinegar and steel wool;iron acetate", "iron-solution"},
    {"bleach;wood bleach;peroxide;ab bleach", "two-part-bleach"},
    {"oxalic;deck brightener", "oxalic-acid"},
    {"lye;caustic soda;sodium hydroxide", "lye-wash"},
    {"grain filler;pore filler;filler", "natural-filler;clear-filler;walnut-filler"},
    {"lime;limewash;cerused;cerusing wax", "liming-wax;lime-wash"},
};

// What people call lights; ids of the library's.
constexpr TradeWord light_words[] = {
    {"daylight;day;window;north light;sun;sunlight;outdoors", "D65"},
    {"lamp;warm lamp;filament;filament lamp;incandescent;bulb;light bulb;tungsten;halogen;candle", "A"},
    {"led;warm led;warm white;warm white led;2700k;2700;led lamp", "LED-2700"},
    {"cool led;cool white;neutral white;4000k;4000", "LED-4000"},
    {"5000k;5000;daylight led", "LED-5000"},
    {"fluorescent;tube;tl;fluorescent tube", "F11"},
    {"print light;viewing booth", "D50"},
};

std::string plain(std::string_view word) {
    std::string out;
    for (const char c : base::lower(std::string(word)))
        if (c != '-' && c != '_' && c != ' ')
            out += c;
        else if (!out.empty() && out.back() != ' ')
            out += ' ';
    while (!out.empty() && out.back() == ' ') out.pop_back();
    return out;
}

}  // namespace

std::string light_meant_by(std::string_view word) {
    const auto asked = plain(word.substr(0, 64));
    for (const auto& row : light_words) {
        const auto words = base::split(row.words, ';');
        if (std::find(words.begin(), words.end(), asked) != words.end()) return std::string(row.ids);
    }
    return "";
}

std::vector<std::string> meant_by(std::string_view word) {
    const auto asked = plain(word.substr(0, 64));
    for (const auto& row : trade_words) {
        const auto words = base::split(row.words, ';');
        if (std::find(words.begin(), words.end(), asked) == words.end()) continue;
        const auto ids = base::split(row.ids, ';');
        return {ids.begin(), ids.end()};
    }
    return {};
}

std::string material_suggestion(std::string_view read, const std::vector<std::string>& choices) {
    std::vector<std::string> meant;
    for (const auto& id : meant_by(read))
        if (std::find(choices.begin(), choices.end(), id) != choices.end()) meant.push_back(id);
    if (meant.empty()) return suggestion(read, choices);
    return " By that a shop mostly means " + either(meant) + ".";
}

}  // namespace foretone::scene
