// Where ready colored coats and treatments belong. All of it is common practice, and said so.
//
// A treatment reacts with the wood: it needs bare wood, and on that wood what it reacts with. A stain colors bare wood;
// a glaze lies between films; a filler is pressed into open pores and sealed; reagents are neutralized.

#include "order_ready.hpp"

#include <algorithm>

#include "foretone/base/number.hpp"
#include "foretone/schedule/wood_change.hpp"
#include "coat_facts.hpp"

namespace foretone::schedule {
namespace {
using material::Kind;
using material::Materials;
using material::Needs;
using material::Sure;

constexpr double least_tannin_percent = 1;  // practice: maple, birch and pine hardly take an iron stain

// What lies under the step that is judged.
struct Below {
    std::string film;  // name of the last layer that closes the wood
    std::string any;   // of the last layer of all
    double tannin_percent = least_tannin_percent;
    bool dye = false, iron = false;
    const material::Treatment* treatment = nullptr;  // the step just below
};

struct Here {
    int step;
    const CoatFacts& coat;
    const Below& below;
    const Materials& materials;
    bool filmed_over;  // a film follows
    std::vector<Finding>& out;

    Finding& say(std::string id, Severity severity, const std::string& under, std::string what, std::string why) const {
        out.push_back(
            {std::move(id), severity, step, under, coat.name, std::move(what), std::move(why), Sure::practice, {}});
        return out.back();
    }
    Kind kind() const { return coat.ready->kind; }
};

// A thin coat between, of what ties, so that it holds whatever goes over it.
void seal_first(const Here& h, Finding& f) {
    const auto tie = std::find_if(h.materials.begin(), h.materials.end(), [](const auto& entry) {
        return entry.second.order.ties && entry.second.order.ties->value;
    });
    const bool known = tie != h.materials.end();
    f.mends.push_back({Mend::Kind::seal, 0, known ? tie->first : "",
                       "spray a thin coat of " + (known ? tie->second.name : "a dewaxed shellac") + " first"});
}

// A thin coat over it.
void cover(const Here& h, Finding& f) {
    seal_first(h, f);
    auto& m = f.mends.back();
    m.kind = Mend::Kind::coat;
    m.text.replace(m.text.size() - 5, 5, "over it");
}

void leave_out(Finding& f, const std::string& text) { f.mends.push_back({Mend::Kind::leave_out, 0, "", text}); }

void rule_treatment_needs(const Here& h, const material::Treatment& t) {
    if (!h.below.film.empty()) {
        auto& f = h.say("treatment-over-finish", Severity::failure, h.below.film,
                        h.coat.name + " does nothing over " + h.below.film,
                        "it reacts with bare wood, and what lies on the wood keeps it out");
        leave_out(f, "leave out " + h.below.film + ", or strip and sand to bare wood first");
        return;
    }
    if (t.needs == Needs::tannin && h.below.tannin_percent < least_tannin_percent) {
        auto& f = h.say("no-tannin", Severity::failure, "", h.coat.name + " finds no tannin to react with",
                        "the wood holds about " + base::at_most(h.below.tannin_percent, 1) +
                            " % of tannin; below about 1 % what color comes is weak and blotchy");
        for (const auto& [id, m] : h.materials)
            if (const auto* coat = std::get_if<material::Treatment>(&m.data); coat && coat->gives_tannin_percent)
                f.mends.push_back({Mend::Kind::seal, 0, id, "put " + m.name + " on first"});
        if (f.mends.empty()) f.mends.push_back({Mend::Kind::seal, 0, "", "put a tannin coat on first"});
        leave_out(f, "leave it out, and color this wood with a stain or a dye");
    }
    if (t.needs == Needs::dye && !h.below.dye) {
        auto& f = h.say("no-dye-below", Severity::failure, "", h.coat.name + " finds no dye to take out",
                        "it takes out dye and hardly touches the color of the wood itself");
        leave_out(f, "leave it out; a two-part bleach takes the wood's own color");
    }
    if (t.needs == Needs::iron && !h.below.iron) {
        auto& f = h.say("no-iron-below", Severity::warning, "", h.coat.name + " finds no iron stain to take out",
                        "it takes out the blue-black of iron and some grey of weather, and leaves clean wood as it is");
        leave_out(f, "leave it out if the wood is clean");
    }
}

void rule_neutralize(const Here& h) {
    const auto* t = h.below.treatment;
    if (!t || t->neutralize.empty() || (h.coat.ready && h.kind() == Kind::treatment)) return;
    h.say("neutralize", Severity::note, h.below.any,
          "before " + h.coat.name + ": " + t->neutralize + ", and let the wood dry",
          "what is left of it goes on working, and attacks the coats above");
}

void rule_place(const Here& h) {
    const bool on_film = !h.below.film.empty();
    if (h.kind() == Kind::glaze && !on_film) {
        auto& f = h.say("glaze-on-bare", Severity::warning, "", h.coat.name + " on bare wood goes in as a stain",
                        "a glaze is worked on a sealed surface, where what is wiped off comes off");
        seal_first(h, f);
    }
    if (h.kind() == Kind::glaze && !h.filmed_over) {
        auto& f = h.say("glaze-uncovered", Severity::warning, "", h.coat.name + " is left uncovered",
                        "a glaze has little binder: it rubs off until a film lies over it");
        cover(h, f);
    }
    if (h.kind() == Kind::stain && on_film) {
        auto& f = h.say("stain-over-film", Severity::warning, h.below.film,
                        h.coat.name + " over " + h.below.film + " is wiped off",
                        "a stain colors what it soaks into; over a film use a glaze, a gel stain or a toner");
        leave_out(f, "put it on the bare wood: leave out " + h.below.film);
    }
    if (h.kind() == Kind::filler && on_film)
        h.say("filler-over-film", Severity::note, h.below.film,
              h.coat.name + " over " + h.below.film + " fills only pores that it has left open",
              "a thin seal under a filler keeps its color off the flats; a thick one closes the pores");
    if (h.kind() == Kind::filler && !h.filmed_over) {
        auto& f = h.say("filler-unsealed", Severity::warning, "", h.coat.name + " is not sealed",
                        "a filler shrinks and chips out of the pores unless a film holds it");
        cover(h, f);
    }
}

void go_under(Below& below, const CoatFacts& coat) {
    below.any = coat.name;
    below.treatment = coat.ready ? std::get_if<material::Treatment>(&coat.ready->data) : nullptr;
    if (below.treatment) {
        const WoodChange change = wood_change(*below.treatment);
        below.tannin_percent += change.gives_tannin_percent;
        below.iron = below.iron || change.leaves_iron;
        return;
    }
    if (!coat.binder) {
        below.dye = below.dye || coat.colored;
        return;
    }
    // Stains and fillers soak in; all else with a binder closes the wood to what comes after.
    const bool stain = coat.ready && (coat.ready->kind == Kind::stain || coat.ready->kind == Kind::filler);
    if (!stain) below.film = coat.name;
}

}  // namespace

void check_ready(const Finish& finish, const Materials& materials, const material::Wood* wood,
                 std::vector<Finding>& out) {
    Below below;
    if (wood) below.tannin_percent = tannin_percent(*wood);
    for (std::size_t s = 0; s < finish.steps.size(); ++s) {
        const CoatFacts coat = coat_facts(finish.steps[s], materials);
        const bool filmed =
            std::any_of(finish.steps.begin() + static_cast<std::ptrdiff_t>(s) + 1, finish.steps.end(),
                        [&](const Step& later) { return coat_facts(later, materials).binder != nullptr; });
        const Here h{static_cast<int>(s), coat, below, materials, filmed, out};
        rule_neutralize(h);
        if (coat.ready) {
            if (const auto* t = std::get_if<material::Treatment>(&coat.ready->data))
                rule_treatment_needs(h, *t);
            else
                rule_place(h);
        }
        go_under(below, coat);
    }
}

}  // namespace foretone::schedule
