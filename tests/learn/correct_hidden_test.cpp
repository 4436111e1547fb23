// Boards whose dye is off by a hidden factor: one reading, one change, and where the next board lands.

#include <catch2/catch.hpp>

#include "foretone/learn/fit.hpp"
#include "foretone/search/correct.hpp"
#include "learn/hidden.hpp"
#include "support/sanitized.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

const int most_boards = sanitized() ? 5 : 100;

const std::vector<std::string> touches = {"russet-dye", "umber-dye", "raven-dye"};

schedule::Finish whole_finish() {
    auto f = dyed(1, 12);
    auto top = step_of({{"waterborne-acrylic", schedule::Amount::parts, 1}}, 2);
    top.method = material::Method::brush;
    f.steps.push_back(top);
    return f;
}

enum class Others { none, all_but_contact, all };

struct OffBoard {
    Normal draw;
    std::string wood;
    material::Materials hidden = whole_library();
    search::Aim aim;
    color::Lab target;

    /// The dye off by a factor from 0.5 to 1.9; with `others`, other figures off by half their spread as well.
    OffBoard(std::uint64_t seed, Others others)
        : draw(seed + 1000),
          wood(std::vector<std::string>{"hard-maple", "cherry", "ash", "birch", "white-oak"}[seed % 5]) {
        if (others != Others::none)
            for (auto& [id, m] : hidden)
                for (auto& f : material::figures(m))
                    if (f.optical && (f.key != "contact" || others == Others::all) && f.sd() > 0 &&
                        m.kind != material::Kind::dye && m.kind != material::Kind::stock)
                        material::move(f, 0.5 * std::clamp(draw(), -2.0, 2.0));
        const double share = (static_cast<double>(draw.below(1000)) + 0.5) / 1000;
        std::get<material::Stock>(hidden.at("honey-dye").data).strength.value = 0.5 * std::pow(1.9 / 0.5, share);
        const auto predicted = seen(whole_library(), whole_finish());
        aim = search::aim_at(predicted, {"D65"}, {d65_10deg()});
        target = lab_of(predicted);
    }

    spectral::Spectrum seen(const material::Materials& materials, const schedule::Finish& finish) const {
        const auto solver = appearance::two_flux_solver();
        return search::finished({materials, wood, optics::Geometry::d8_included, solver}, finish);
    }
};

struct Landing {
    int off = 0, can = 0, landed = 0;
    std::vector<double> before, after;
};

Landing land(Others others, bool bare) {
    Landing out;
    const auto solver = appearance::two_flux_solver();
    for (std::uint64_t seed = 0; out.off < most_boards; ++seed) {
        OffBoard b(seed, others);
        const auto board = b.seen(b.hidden, whole_finish());
        const double before = color::delta_e_00(lab_of(board), b.target);
        if (before <= 1) continue;  // within ΔE00 1 as it is: not off
        ++out.off;
        learn::FitQuestion ask;
        ask.materials = whole_library();
        ask.boards = {{"first", b.wood, whole_finish()}};
        ask.keep_unresolved = ask.leave_one_out = false;
        ask.fewest = 1;
        if (bare)
            ask.readings.push_back({"bare",
                                    0,
                                    0,
                                    0,
                                    {},
                                    noisy(lab_of(b.seen(b.hidden, {"", {}})), 0.3, b.draw),
                                    400,
                                    700,
                                    d65_10deg(),
                                    0.3});
        ask.readings.push_back({"first", 0, 3, 2, {}, noisy(lab_of(board), 0.3, b.draw), 400, 700, d65_10deg(), 0.3});
        const learn::Fit fit(ask);
        material::Materials materials = whole_library();
        for (const auto& [id, m] : fit.result().materials) materials[id] = m;
        const search::ChangeQuestion question{{materials, b.wood, optics::Geometry::d8_included, solver},
                                              whole_finish(),
                                              b.aim,
                                              touches,
                                              [&](const schedule::Finish& f) { return fit.as_laid(f); }};
        const auto changes = search::changes(question);
        const double after =
            changes.empty() ? before : color::delta_e_00(lab_of(b.seen(b.hidden, changes.front().finish)), b.target);
        out.before.push_back(before);
        out.after.push_back(after);
        if (after <= 1) {
            ++out.can, ++out.landed;
            continue;
        }
        const auto best = search::changes(
            {{b.hidden, b.wood, optics::Geometry::d8_included, solver}, whole_finish(), b.aim, touches, {}});
        const bool can = std::any_of(best.begin(), best.end(), [](const auto& c) { return c.worst_de00 <= 1; });
        out.can += can;
    }
    std::sort(out.before.begin(), out.before.end());
    std::sort(out.after.begin(), out.after.end());
    return out;
}

}  // namespace

TEST_CASE(
    "of 100 boards whose dye is off, one reading and one change land nine in ten within dE00 1 of the target where one "
    "change "
    "can") {
    const auto l = land(Others::none, false);
    INFO(l.off << " boards off by dE00 1 to " << l.before.back() << ": one change can mend " << l.can << ", landed "
               << l.landed << "; dE00 median " << l.before[l.before.size() / 2] << " before, "
               << l.after[l.after.size() / 2] << " after, worst " << l.after.back());
    CHECK(l.can >= 0.9 * l.off);
    CHECK(l.landed >= 0.9 * l.can);
}

// A bare and a finished reading do not tell a film that leaves air under it from a weaker dye: both read paler. Where
// it is known how the film touches the wood nine in ten land; where that is as unsure as the library says, fewer.
TEST_CASE(
    "of 100 boards off in everything by half its spread, a bare and a finished reading land nine in ten of those that "
    "one change can mend where the film's contact is known, and five in six where it is not") {
    for (const auto others : {Others::all_but_contact, Others::all}) {
        const auto l = land(others, true);
        INFO(l.off << " boards off by dE00 1 to " << l.before.back() << ": one change can mend " << l.can << ", landed "
                   << l.landed << "; dE00 median " << l.before[l.before.size() / 2] << " before, "
                   << l.after[l.after.size() / 2] << " after, worst " << l.after.back());
        CHECK(l.after[l.after.size() / 2] < l.before[l.before.size() / 2]);
        if (most_boards < 100) continue;  // five say nothing of nine in ten
        CHECK(l.landed >= (others == Others::all ? 5.0 / 6 : 0.9) * l.can);
    }
}
