// What a fit hands on: materials that show by themselves what was read, marked where they were learned and nowhere
// else, and a table whose rows are the figures that those materials hold.

#include <catch2/catch.hpp>

#include <cmath>
#include <set>

#include "foretone/learn/learning.hpp"
#include "foretone/material/figures.hpp"
#include "foretone/material/optics_of.hpp"
#include "foretone/schedule/suction.hpp"
#include "learn/hidden.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;
using appearance::JointFigure;

namespace {

const optics::Geometry sphere = optics::Geometry::d8_included;

// One board of `finish` on `wood`, read bare and after every coat as `hidden` shows it, without noise.
learn::FitQuestion handed_question(const material::Materials& hidden, const std::string& wood,
                                   const schedule::Finish& finish) {
    learn::FitQuestion q;
    q.materials = whole_library();
    q.boards = {{"A", wood, finish}};
    q.noise = {0, 0.05, 0.0};
    q.leave_one_out = false;
    const auto solver = appearance::two_flux_solver();
    const auto add = [&](int step, int coat) {
        learn::BoardReading r;
        r.name = std::to_string(step) + "/" + std::to_string(coat);
        r.step = step, r.coat = coat;
        r.weights = d65_10deg();
        r.spread_de = 0.05;
        auto so_far = finish;
        so_far.steps.resize(static_cast<std::size_t>(step));
        if (step > 0) so_far.steps.back().coats = coat;
        r.reflectance = search::finished({hidden, wood, sphere, solver}, so_far);
        q.readings.push_back(r);
    };
    add(0, 0);
    for (std::size_t s = 0; s < finish.steps.size(); ++s)
        for (int c = 1; c <= finish.steps[s].coats; ++c) add(static_cast<int>(s) + 1, c);
    return q;
}

schedule::Finish shellacked(std::vector<schedule::Part> dye, int coats = 2) {
    auto f = dyed(coats);
    f.steps.front().mix = std::move(dye);
    return f;
}

using schedule::Amount;
const schedule::Finish ready_dye = dyed(2);
const schedule::Finish powder_dye = shellacked(
    {{"acid-orange-7", Amount::g_per_l, 1}, {"acid-black-1", Amount::g_per_l, 0.3}, {"water", Amount::rest, 1}});

// Amber varnish by brush: a can with solids, whose build the boards tell.
schedule::Finish varnished(int coats = 2) {
    auto film = step_of({{"oil-varnish", Amount::parts, 1}}, coats);
    film.method = material::Method::brush;
    return {"varnished", {film}};
}

// How far the materials that a fit hands on, laid as its hand lays, are from what was read: the worst reading, ΔE00.
double handed_off(const learn::Fit& fit, const learn::FitQuestion& q, const std::string& wood) {
    const auto solver = appearance::two_flux_solver();
    double worst = 0;
    for (const auto& r : q.readings) {
        auto finish = q.boards.front().finish;
        finish.steps.resize(static_cast<std::size_t>(r.step));
        if (r.step > 0) finish.steps.back().coats = r.coat;
        const auto seen = lab_of(search::finished({fit.result().materials, wood, sphere, solver}, fit.as_laid(finish)));
        worst = worst_of(worst, color::delta_e_00(seen, lab_of(*r.reflectance)));
    }
    return worst;
}

material::Materials otherwise() {
    auto m = whole_library();
    std::get<material::Stock>(m.at("honey-dye").data).strength.value = 0.75;
    for (const auto& [id, factor] : {std::pair{"acid-orange-7", 1.25}, std::pair{"acid-black-1", 0.8}})
        for (double& v : std::get<material::Dye>(m.at(id).data).molar_absorptivity.values) v *= factor;
    auto& shellac = std::get<material::Binder>(m.at("orange-shellac").data);
    shellac.gardner->value = 14;
    shellac.wet_um[static_cast<std::size_t>(material::Method::spray)]->value *= 1.12;
    for (double& v : std::get<material::Wood>(m.at("hard-maple").data).reflectance.values) v *= 0.96;
    return m;
}

double powders_absorb(const material::Materials& m, const std::string& stock) {
    const auto& data = std::get<material::Stock>(m.at(stock).data);
    double sum = 0;
    for (const auto& load : data.mix) {
        const auto a = material::mass_absorptivity_m2_per_g(std::get<material::Dye>(m.at(load.use).data));
        for (std::size_t i = 4; i <= 64; ++i) sum += load.g_per_l * a[i];  // 400 to 700 nm
    }
    return sum;
}

}  // namespace

TEST_CASE("the materials that a fit hands on show by themselves what was read") {
    for (const auto* finish : {&ready_dye, &powder_dye}) {
        const auto q = handed_question(otherwise(), "hard-maple", *finish);
        const learn::Fit fit(q);
        const double off = handed_off(fit, q, "hard-maple");
        INFO((finish == &ready_dye ? "a ready dye: " : "powders: ")
             << off << ", by the fit itself " << fit.result().rms_de00);
        CHECK(off < 0.1);  // an eye sees from about 1 on
        CHECK(off < fit.result().rms_de00 + 0.06);
    }
}

TEST_CASE("a ready dye keeps its powders as they are: loads carry the recipe, its strength how strong it is") {
    const auto q = handed_question(otherwise(), "hard-maple", ready_dye);
    const auto result = learn::Fit(q).result();
    const auto& found = std::get<material::Stock>(result.materials.at("honey-dye").data);
    const auto& library = std::get<material::Stock>(whole_library().at("honey-dye").data);
    for (const auto& load : library.mix) {
        const auto powder = [&](const material::Materials& m) {
            return std::get<material::Dye>(m.at(load.use).data).molar_absorptivity.values;
        };
        CHECK(powder(result.materials) == powder(whole_library()));
    }
    CHECK(powders_absorb(result.materials, "honey-dye") ==
          Approx(powders_absorb(whole_library(), "honey-dye")).epsilon(1e-9));
    double strength = 0, error = 0;
    for (const auto& f : result.figures)
        if (f.material == "honey-dye" && f.figure == "strength") strength = f.value, error = f.error;
    CHECK(found.strength.value == Approx(strength * library.strength.value).epsilon(1e-6));
    CHECK(found.strength.sd == Approx(error * found.strength.value).epsilon(1e-9));
    CHECK(found.strength.from.mark == material::Mark::fitted);
    CHECK(strength == Approx(0.75).epsilon(0.1));
}

TEST_CASE("a powder that a step uses carries its strength in its absorptivity, and its error with it") {
    const auto q = handed_question(otherwise(), "hard-maple", powder_dye);
    const auto result = learn::Fit(q).result();
    for (const char* id : {"acid-orange-7", "acid-black-1"}) {
        const auto& found = std::get<material::Dye>(result.materials.at(id).data).molar_absorptivity;
        const auto& library = std::get<material::Dye>(whole_library().at(id).data).molar_absorptivity;
        const auto f = std::find_if(result.figures.begin(), result.figures.end(),
                                    [&](const auto& x) { return x.material == id && x.figure == "strength"; });
        REQUIRE(f != result.figures.end());
        INFO(id << " is " << f->value << " times as strong, one error " << f->error);
        double worst = 0;
        for (std::size_t i = 0; i < found.values.size(); ++i)
            worst = worst_of(worst, std::abs(found.values[i] - f->value * library.values[i]));
        CHECK(worst < 1e-6 * *std::max_element(library.values.begin(), library.values.end()));
        CHECK(found.sd == Approx(f->error).epsilon(1e-9));
        CHECK(found.from.mark == material::Mark::fitted);
    }
}

TEST_CASE("a film that was narrowed says an absorption for its color number, and its build in the usual wet film") {
    const auto hidden = otherwise();
    const auto q = handed_question(hidden, "hard-maple", ready_dye);
    const auto result = learn::Fit(q).result();
    const auto& found = std::get<material::Binder>(result.materials.at("orange-shellac").data);
    REQUIRE(found.absorption_per_mm);
    CHECK_FALSE(found.gardner);
    CHECK_FALSE(found.gardner_solids_volume_percent);
    CHECK(found.absorption_per_mm->from.mark == material::Mark::fitted);
    const auto figure = [&](const std::string& start) {
        return *std::find_if(result.figures.begin(), result.figures.end(), [&](const auto& f) {
            return f.material == "orange-shellac" && f.figure.rfind(start, 0) == 0;
        });
    };
    const auto absorbs = figure("absorption at 450"), build = figure("dry build of a coat, spray"),
               tint = figure("tint of a coat at 450 nm, spray");
    CHECK(found.absorption_per_mm->values[14] == Approx(absorbs.value).epsilon(1e-9));
    CHECK(found.absorption_per_mm->sd == Approx(absorbs.error).epsilon(1e-9));
    CHECK(tint.value == Approx(absorbs.value * build.value / 1000).epsilon(1e-9));
    const auto& library = std::get<material::Binder>(whole_library().at("orange-shellac").data);
    const auto spray = static_cast<std::size_t>(material::Method::spray),
               brush = static_cast<std::size_t>(material::Method::brush);
    CHECK(found.wet_um[spray]->value / library.wet_um[spray]->value ==
          Approx(build.value / build.library).epsilon(1e-6));
    CHECK(found.wet_um[spray]->sd == Approx(build.error * found.wet_um[spray]->value).epsilon(1e-9));
    if (library.wet_um[brush]) {
        CHECK(found.wet_um[brush]->value == library.wet_um[brush]->value);  // no board was brushed
        CHECK(found.wet_um[brush]->from.mark == library.wet_um[brush]->from.mark);
    }
    // What is seen is absorption times build: known better than either by itself.
    CHECK(tint.error < absorbs.error);
    CHECK(tint.error < build.error);
}

TEST_CASE("a wet film that a step states is laid as the hand laid it; the amount's unit does not matter") {
    auto stated = varnished();
    stated.steps[0].wet_um = 40;
    // The can is the library's; the hand lays more, or less. Color and solids are as unsure: the film takes a part of
    // it.
    const auto fitted = [&](double more) {
        auto laid = stated;
        laid.steps[0].wet_um = 40 * more;
        auto q = handed_question(whole_library(), "hard-maple", laid);
        q.boards.front().finish = stated;
        return learn::Fit(q);
    };
    const auto fit = fitted(1.2), thin = fitted(0.8);
    auto by_cover = stated, by_mass = stated, sprayed = stated, unknown = stated;
    by_cover.steps[0].wet_um = by_mass.steps[0].wet_um = std::nullopt;
    by_cover.steps[0].coverage_m2_per_l = 10;
    by_mass.steps[0].wet_g_per_m2 = 50;
    const double factor = *fit.as_laid(stated).steps[0].wet_um / 40;
    CHECK(factor > 1.003);
    CHECK(factor < 1.2);
    CHECK(*thin.as_laid(stated).steps[0].wet_um / 40 < 0.997);
    CHECK(*fit.as_laid(by_mass).steps[0].wet_g_per_m2 == Approx(50 * factor).epsilon(1e-12));
    CHECK(*fit.as_laid(by_cover).steps[0].coverage_m2_per_l == Approx(10 / factor).epsilon(1e-12));
    sprayed.steps[0].method = material::Method::spray;  // nothing is known of that hand
    CHECK(*fit.as_laid(sprayed).steps[0].wet_um == 40);
    CHECK(*fit.as_laid(ready_dye).steps[0].wet_g_per_m2 == *ready_dye.steps[0].wet_g_per_m2);  // a dye has no build
    unknown.steps.insert(unknown.steps.begin(), step_of({{"no-such-thing", Amount::parts, 1}}, 1));
    CHECK(*fit.as_laid(unknown).steps[1].wet_um == 40);
    bool said = false;
    for (const auto& n : fit.result().notes) said = said || n.find("step 1 states its wet film") == 0;
    CHECK(said);
}

TEST_CASE("every row of the table reads what the handed-on materials hold, and has a spread") {
    const auto varnish = varnished();
    for (const auto* finish : {&ready_dye, &powder_dye, &varnish}) {
        const auto q = handed_question(otherwise(), "hard-maple", *finish);
        const auto result = learn::Fit(q).result();
        const auto& t = result.joint;
        std::set<std::string> names;
        for (std::size_t i = 0; i < t.figures.size(); ++i) {
            const auto& row = t.figures[i];
            INFO(row.name());
            CHECK(names.insert(row.name()).second);
            CHECK(t.factor[i].size() == i + 1);
            const bool sure =
                row.figure == "purity" || row.figure == "molar_mass_g_per_mol" || row.figure == "solids_volume_percent";
            if (row.material == appearance::uptake_rows) continue;
            CHECK((t.sd(i) > 0) == !sure);  // these stand in another figure's spread
            auto m = result.materials.at(row.material);
            double holds = std::nan("");
            for (const auto& at : material::figures(m))
                if (at.key == row.figure)
                    holds = at.figure ? appearance::reading_of(*at.figure) : appearance::reading_of(*at.spectrum);
            const bool load = row.figure.starts_with("mix.");
            if (load) holds = std::get<material::Stock>(m.data).mix.at(std::stoul(row.figure.substr(4)) - 1).g_per_l;
            CHECK(row.value == Approx(holds).epsilon(1e-12));
            const auto& acts = row.acts;
            if (row.figure == "reflectance")
                CHECK(acts == JointFigure::Acts::body);
            else if (row.figure == "strength" || row.figure.rfind("wet_um.", 0) == 0 ||
                     row.figure == "molar_absorptivity" || row.figure == "absorption_per_mm" || load ||
                     ((row.figure.ends_with("_um") || row.figure.ends_with("_per_mm")) && row.value > 0))
                CHECK((acts == JointFigure::Acts::logarithm || sure));
            else
                CHECK(acts == JointFigure::Acts::value);
        }
        const bool shellac = finish != &varnish;
        CHECK(names.count("hard-maple/reflectance/1") == 1);
        CHECK(names.count("orange-shellac/wet_um.spray") == shellac);
        CHECK(names.count("orange-shellac/absorption_per_mm/1") == shellac);
        CHECK(names.count("oil-varnish/wet_um.brush") == !shellac);
        CHECK(names.count("oil-varnish/solids_volume_percent") == !shellac);
        CHECK(names.count("oil-varnish/absorption_per_mm/1") == !shellac);
        CHECK(names.count("honey-dye/strength") == (finish == &ready_dye ? 1 : 0));
        CHECK(names.count("honey-dye/mix.1") == (finish == &ready_dye ? 1 : 0));
        CHECK(names.count("acid-orange-7/molar_absorptivity") == (finish == &powder_dye ? 1 : 0));
        CHECK(names.count("acid-orange-7/purity") == (finish == &powder_dye ? 1 : 0));
    }
}

TEST_CASE("what was learned is put on a job's materials: powders that a learned ready dye carries are as sure as it") {
    const auto result = learn::Fit(handed_question(otherwise(), "hard-maple", ready_dye)).result();
    REQUIRE(std::count(result.changed.begin(), result.changed.end(), "honey-dye") == 1);
    auto job = whole_library();
    const auto known = learn::learned_of(result, job);
    REQUIRE(known.fits.size() == 1);
    CHECK(known.fits.front().figures.size() == result.joint.figures.size());
    CHECK_FALSE(known.same_board);
    const auto& stock = std::get<material::Stock>(job.at("honey-dye").data);
    CHECK(stock.strength.value == std::get<material::Stock>(result.materials.at("honey-dye").data).strength.value);
    std::set<std::string> carried;
    for (const auto& load : stock.mix) carried.insert(load.use);
    for (const auto& [id, m] : job)
        if (const auto* dye = std::get_if<material::Dye>(&m.data)) {
            const auto& library = std::get<material::Dye>(whole_library().at(id).data);
            INFO(id);
            CHECK(dye->molar_absorptivity.sd == (carried.count(id) ? 0 : library.molar_absorptivity.sd));
            CHECK(dye->purity.sd == (carried.count(id) ? 0 : library.purity.sd));
        }
    CHECK(job.size() == whole_library().size());
}

TEST_CASE("how far another board of a wood lies is worked out from the library's spread and one board's") {
    // Σ of stock s and board: whole² = s² + b², at least half of it stock; read once, the stock is known to
    // sb/√(s² + b²), and another board lies b beside that; b as said, but no more than half of the library's variance.
    for (const char* wood : {"hard-maple", "walnut"})
        for (const double said : {0.5, 2.0, 6.0}) {
            auto q = handed_question(whole_library(), wood, undyed(1));
            q.noise = {said, 0.05, 0.0};
            const auto joint = learn::Fit(q).result().joint;
            REQUIRE(joint.another_board_de.size() == 1);
            const auto& r = std::get<material::Wood>(whole_library().at(wood).data).reflectance;
            const double whole = r.sd * (lab_of(r.values).l + 16) / 3;
            const double b = std::min(said, whole / std::sqrt(2.0)), s2 = whole * whole - b * b;
            CHECK(joint.another_board_de[0].first == wood);
            CHECK(joint.another_board_de[0].second == Approx(std::sqrt(b * b + s2 * b * b / (s2 + b * b))));
        }
}

TEST_CASE("of a dye read as Lab the color is known: what it holds of each powder makes up for its strength") {
    // Strength is what it absorbs from 400 to 700 nm, which no Lab reading tells: alone it would move a color that was
    // read, more than all else that is left.
    auto finish = dyed(2);
    finish.steps.front().mix.front().use = "umber-dye";
    auto q = handed_question(otherwise(), "hard-maple", finish);
    for (auto& r : q.readings) r.lab = lab_of(*r.reflectance), r.reflectance.reset();
    auto job = whole_library();
    auto known = learn::learned_of(learn::Fit(q).result(), job);
    known.hand = known.uptake = 0;
    known.same_board = true;
    const auto rms = [&] {
        return appearance::spread(job, "hard-maple", finish, sphere, appearance::two_flux_solver(), {d65_10deg()},
                                  known)
            .regions.back()[0]
            .rms_de00;
    };
    const double with = rms();
    auto& table = known.fits.front();
    std::vector<std::size_t> others;
    for (std::size_t i = 0; i < table.figures.size(); ++i)
        if (!table.figures[i].figure.starts_with("mix.")) others.push_back(i);
    REQUIRE(others.size() + 4 == table.figures.size());  // umber is of four powders
    table = appearance::rows_of_table(table, others);
    const double without = rms();
    INFO("one standard deviation " << with << ", without the powders " << without);
    CHECK(with < 0.75 * without);
}
