#include "foretone/search/space.hpp"

#include <algorithm>
#include <numeric>
#include <stdexcept>
#include <tuple>

namespace foretone::search {
namespace {
using schedule::Amount;
using schedule::Step;

[[noreturn]] void refuse(const std::string& text) { throw std::invalid_argument("search: " + text); }

// Every way to give `at_once` or fewer of the stocks 1 … most_parts parts, in least terms.
void add_ratios(const DyeChoices& c, std::size_t stock, DyeMix& mix, int used, int divisor, std::vector<DyeMix>& out) {
    if (stock == c.use.size()) {
        if (used > 0 && divisor == 1) out.push_back(mix);
        if (out.size() > most_mixes) refuse("more than " + std::to_string(most_mixes) + " dye mixes");
        return;
    }
    add_ratios(c, stock + 1, mix, used, divisor, out);
    if (used >= c.at_once) return;
    for (int parts = 1; parts <= c.most_parts; ++parts) {
        mix.parts[stock] = static_cast<std::uint8_t>(parts);
        add_ratios(c, stock + 1, mix, used + 1, std::gcd(divisor, parts), out);
    }
    mix.parts[stock] = 0;
}

void add_mixes(const DyeChoices& c, const material::Materials& materials, Space& space) {
    if (c.use.empty() || c.water.empty()) refuse("no dye or no dilution to choose from");
    if (c.use.size() > most_stocks) refuse("more than " + std::to_string(most_stocks) + " dyes to choose from");
    space.stocks = c.use;
    space.dye_wet_g_per_m2 = c.wet_g_per_m2;
    for (const auto& id : c.use) {
        const auto& stock = std::get<material::Stock>(materials.at(id).data);
        const auto& carrier = stock.carrier;
        for (const auto& load : stock.mix)
            if (!facts(materials.at(load.use).kind).dissolves)
                refuse("'" + id + "' holds '" + load.use +
                       "', which is no dye; only dissolved dyes are mixed and thinned");
        if (space.liquid.empty()) space.liquid = carrier;
        if (carrier != space.liquid)
            refuse("dyes of different liquids (" + space.liquid + ", " + carrier + ") do not go into one mix");
    }
    std::vector<DyeMix> ratios;
    DyeMix mix;
    add_ratios(c, 0, mix, 0, 0, ratios);
    if (ratios.size() * c.water.size() > most_mixes) refuse("more than " + std::to_string(most_mixes) + " dye mixes");
    std::stable_sort(ratios.begin(), ratios.end(), [](const DyeMix& a, const DyeMix& b) {
        return std::tuple(a.colorants(), a.total()) < std::tuple(b.colorants(), b.total());
    });
    for (const auto& ratio : ratios)
        for (const int water : c.water) {
            space.mixes.emplace_back(ratio);
            space.mixes.back()->water = water;
        }
}

// Powders in a coat, tints and those of ready colored coats: what a shop must have.
int colorants_of(const std::vector<schedule::Part>& mix, const material::Materials& materials) {
    int count = static_cast<int>(mix.size()) - 1;
    for (const auto& part : mix)
        if (std::holds_alternative<material::Colored>(materials.at(part.use).data)) ++count;
    return count;
}

// The bases a coat is made of: each material, with each cut it takes, and each tint.
std::vector<CoatOption> options_of(const CoatChoices& c, const material::Materials& materials) {
    std::vector<CoatOption> out;
    if (c.use.empty() || c.coats.empty()) refuse("no material or no number of coats to choose from");
    if (c.tint.empty() != c.tint_percent.empty()) refuse("tints without a strength, or the other way round");
    for (const auto& id : c.use) {
        const auto* binder = std::get_if<material::Binder>(&materials.at(id).data);
        std::vector<std::optional<double>> cuts, sheens;
        if (binder && binder->resin_density_g_per_ml) cuts.assign(c.cut_lb.begin(), c.cut_lb.end());
        if (cuts.empty()) cuts.emplace_back();
        sheens.assign(c.sheen_gu60.begin(), c.sheen_gu60.end());
        if (sheens.empty()) sheens.emplace_back();
        const auto said = [](const std::vector<double>& list) {
            std::vector<std::optional<double>> out_list(list.begin(), list.end());
            if (out_list.empty()) out_list.emplace_back();
            return out_list;
        };
        const bool toner = materials.at(id).kind == material::Kind::toner;
        const auto strengths = said(toner ? c.toner_strength : std::vector<double>());
        std::vector<std::vector<schedule::Part>> mixes = {{{id, Amount::parts, 1}}};
        for (const auto& tint : c.tint)
            for (const double percent : c.tint_percent)
                mixes.push_back({{id, Amount::rest, 1}, {tint, Amount::percent_weight, percent}});
        for (const auto& mix : mixes)
            for (const auto& cut : cuts)
                for (const auto& sheen : sheens)
                    for (const auto& remainder : said(c.remainder))
                        for (const auto& passes : said(c.passes))
                            for (const auto& strength : strengths)
                                for (const int coats : c.coats) {
                                    Step step;
                                    step.mix = mix;
                                    step.coats = coats;
                                    step.method = c.method;
                                    step.cut_lb = cut;
                                    step.sheen_gu60 = sheen;
                                    step.remainder = remainder;
                                    step.passes = passes;
                                    step.toner_strength = strength;
                                    out.push_back({std::move(step), colorants_of(mix, materials)});
                                }
    }
    return out;
}

// Adds the ways that go on from `way` at place `at` of `put_on`.
void add_ways(const Choices& choices, Space& space, Way way, std::size_t at) {
    if (at == rooms) {
        if (way.steps + (choices.dye && choices.dye->always ? 1 : 0) <= choices.most_steps) space.ways.push_back(way);
        return;
    }
    const Room room = put_on[at];
    const auto& options = space.options[room];
    const bool always = room == topcoat_room || (choices.of(room) && choices.of(room)->always);
    if (!always) add_ways(choices, space, way, at + 1);
    if (way.steps == choices.most_steps) return;
    for (std::size_t o = 0; o < options.size(); ++o) {
        Way next = way;
        next.option[room] = static_cast<int>(o);
        ++next.steps;
        next.coats += options[o].step.coats;
        next.colorants += options[o].colorants;
        add_ways(choices, space, next, at + 1);
    }
}

void add_ways(const Choices& choices, Space& space) {
    double count = 1;
    for (const auto& options : space.options) count *= static_cast<double>(options.size()) + 1;
    if (count > 2.0 * most_ways) refuse("more than " + std::to_string(most_ways) + " ways to coat");
    add_ways(choices, space, Way{}, 0);
    if (space.ways.empty()) refuse("no recipe has as few as " + std::to_string(choices.most_steps) + " steps");
    if (space.ways.size() > most_ways) refuse("more than " + std::to_string(most_ways) + " ways to coat");
    std::stable_sort(space.ways.begin(), space.ways.end(), [](const Way& a, const Way& b) {
        return std::tuple(a.steps, a.coats, a.colorants) < std::tuple(b.steps, b.coats, b.colorants);
    });
}

struct Parts {
    const Way& way;
    const std::optional<DyeMix>& mix;
};

Parts parts(const Space& space, std::uint64_t number) {
    const std::size_t mixes = space.mixes.size();
    return {space.ways.at(static_cast<std::size_t>(number / mixes)),
            space.mixes[static_cast<std::size_t>(number % mixes)]};
}

}  // namespace

const std::optional<CoatChoices>& Choices::of(Room room) const {
    const std::array<const std::optional<CoatChoices>*, rooms> all = {&oil, &sealer, &topcoat, &stain, &glaze, &toner};
    return *all[room];
}

int DyeMix::colorants() const {
    return static_cast<int>(std::count_if(parts.begin(), parts.end(), [](auto p) { return p > 0; }));
}

int DyeMix::total() const { return std::accumulate(parts.begin(), parts.end(), 0); }

std::size_t Space::mixes_with(const Way& way) const {
    if (way.steps < most_steps) return mixes.size();
    return !mixes.empty() && !mixes.front() ? 1 : 0;
}

std::uint64_t Space::recipes(std::size_t first, std::size_t last) const {
    std::uint64_t n = 0;
    for (std::size_t w = first; w < last; ++w) n += mixes_with(ways[w]);
    return n;
}

Space make_space(const Choices& choices, const material::Materials& materials) {
    if (!choices.topcoat) refuse("a finish needs a topcoat");
    Space space;
    space.most_steps = choices.most_steps;
    if (!choices.dye || !choices.dye->always) space.mixes.emplace_back();
    if (choices.dye) add_mixes(*choices.dye, materials, space);
    for (const Room room : put_on)
        if (choices.of(room)) space.options[room] = options_of(*choices.of(room), materials);
    add_ways(choices, space);
    return space;
}

Step dye_step(const Space& space, const DyeMix& mix) {
    Step step;
    for (std::size_t i = 0; i < space.stocks.size(); ++i)
        if (mix.parts[i] > 0) step.mix.push_back({space.stocks[i], Amount::parts, static_cast<double>(mix.parts[i])});
    if (mix.water > 0) step.mix.push_back({space.liquid, Amount::parts, static_cast<double>(mix.water * mix.total())});
    step.wet_g_per_m2 = space.dye_wet_g_per_m2;
    return step;
}

schedule::Finish recipe(const Space& space, std::uint64_t number) {
    const auto [way, mix] = parts(space, number);
    schedule::Finish finish;
    if (mix) finish.steps.push_back(dye_step(space, *mix));
    for (const Room r : put_on)
        if (way.option[r] >= 0) finish.steps.push_back(space.options[r][static_cast<std::size_t>(way.option[r])].step);
    return finish;
}

Effort effort(const Space& space, std::uint64_t number) {
    const auto [way, mix] = parts(space, number);
    return {way.steps + (mix ? 1 : 0), way.coats + (mix ? 1 : 0), way.colorants + (mix ? mix->colorants() : 0)};
}

}  // namespace foretone::search
