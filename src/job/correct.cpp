#include "foretone/job/correct.hpp"

#include <algorithm>
#include <cmath>

#include "foretone/appearance/spread.hpp"
#include "foretone/base/parallel.hpp"
#include "foretone/color/words.hpp"
#include "foretone/learn/learning.hpp"
#include "foretone/scene/readings.hpp"
#include "foretone/search/words.hpp"
#include "foretone/spectral/sampled.hpp"
#include "asked.hpp"

namespace foretone::job {
namespace {
using color::Lab;

constexpr double usual_spread_de = 0.3;      // one repeat of a hand-held instrument (common practice)
constexpr double most_trusted_change = 1.5;  // a factor: beyond it a change comes with a caution (a choice)
constexpr double most_usual_spreads = 2;     // standard deviations of the library

const measure::Reading& pick(const measure::Readings& from, const std::string& name, const std::string& but,
                             const std::string& file, const char* option) {
    std::vector<std::string> names;
    const measure::Reading* found = nullptr;
    int count = 0;
    for (const auto& r : from.readings) {
        if (r.name != but || !name.empty()) names.push_back(r.name);
        if (name.empty() ? r.name == but : r.name != name) continue;
        ++count;
        found = &r;
    }
    if (count == 1) return *found;
    if (count == 0)
        throw scene::InputError("sample-unknown", {file},
                                "there is no reading \"" + name + "\"." + scene::suggestion(name, names));
    throw scene::InputError(
        "readings-several", {file},
        "there are " + std::to_string(count) + " readings; name one with " + option + ": " + scene::either(names));
}

class Corrector {
public:
    Corrector(const scene::Scene& scene, const scene::Library& library, const CorrectQuestion& question)
        : scene_(scene), library_(library), question_(question), solver_(appearance::two_flux_solver()) {}

    Correction run() {
        const std::size_t index = asked_finish(scene_, question_.finish, "correct");
        finish_ = scene_.finishes[index];
        out_.finish = finish_.name;
        out_.recipe = search::mixing_line(finish_);
        out_.geometry = scene::geometry_text(scene_.look.geometry);
        out_.warnings = scene_.warnings;
        note_assumed_finish();
        read();
        try {
            predicted_ = search::finished({scene_.materials, scene_.wood, scene_.look.geometry, solver_}, finish_);
            aim();
            compare();
            noise();
            out_.prediction_holds = worst_prediction_ <= out_.noise.bound_de00;
            out_.done = worst_target_ <= out_.noise.bound_de00;
            // What is off by more than a reading and the wood may yet be seen, and mended if the next board comes out
            // alike.
            if (worst_target_ > out_.noise.reading_and_board_de00()) mend();
        } catch (const schedule::Fault& fault) {
            throw scene_.at(fault, index, 0);
        } catch (const learn::NoFit& e) {
            throw scene::InputError(e.id, {question_.measured.string(), reading_.line, 0}, e.what());
        }
        return std::move(out_);
    }

private:
    // Nobody said which finish was put on: say which one is meant, and how to name another.
    void note_assumed_finish() {
        std::vector<std::string> others;
        for (const auto& f : scene_.finishes)
            if (f.name != finish_.name) others.push_back(f.name);
        if (!question_.finish.empty() || others.empty()) return;
        out_.warnings.push_back({"finish-assumed",
                                 {scene_.file},
                                 "the board is taken to carry \"" + finish_.name +
                                     "\"; if it does not, name its finish with --finish: " + scene::either(others)});
    }

    void read() {
        measure::Options stated;
        const auto all = scene::read_readings(question_.measured, library_, stated);
        for (auto& p : scene::notes_of(all, question_.measured.string())) out_.warnings.push_back(std::move(p));
        reading_ = pick(all, question_.sample, question_.bare, question_.measured.string(), "--sample");
        if (!question_.bare.empty()) bare_ = pick(all, question_.bare, "", question_.measured.string(), "--bare");
        out_.sample = reading_.name;
        for (const auto* r : {&reading_, bare_ ? &*bare_ : nullptr}) {
            if (!r) continue;
            const scene::Place place{question_.measured.string(), r->line, 1};
            if (r->relative)
                throw scene::InputError(
                    "reading-relative", place,
                    "\"" + r->name + "\" is from a photograph: good for differences within it, not for a correction");
            if (r->geometry && *r->geometry != scene_.look.geometry)
                throw scene::InputError("geometry-contradicts", place,
                                        "\"" + r->name + "\" was read " + scene::geometry_text(*r->geometry) +
                                            ", the scene's look says " + scene::geometry_text(scene_.look.geometry) +
                                            ": set [look] geometry to the instrument's");
            if (!r->geometry)
                out_.warnings.push_back({"geometry-assumed", place,
                                         "\"" + r->name + "\" names no geometry: taken as " +
                                             scene::geometry_text(scene_.look.geometry) +
                                             ", as [look] says. With gloss included the same board reads several L* "
                                             "paler: say how it was read (a line geometry: 45/0, d/8-included or "
                                             "d/8-excluded)"});
            if (!r->reflectance && !r->lab)
                throw scene::InputError("reading-without-color", place,
                                        "\"" + r->name + "\" holds neither a reflectance nor Lab");
        }
    }

    // The lights under which both the board and the target are known.
    void aim() {
        const bool lab_target = scene_.target && scene_.target->lab;
        std::vector<std::string> lights = scene_.look.lights;
        out_.observer = scene_.look.observer;
        if (lab_target) lights = {scene_.target->light}, out_.observer = scene_.target->observer;
        if (!reading_.reflectance) {
            if (lab_target && (reading_.light != scene_.target->light || reading_.observer != scene_.target->observer))
                throw scene::InputError("light-differs", {question_.measured.string(), reading_.line, 1},
                                        "\"" + reading_.name + "\" is Lab under " + reading_.light + ", " +
                                            reading_.observer + "; the target is Lab under " + scene_.target->light +
                                            ", " + scene_.target->observer +
                                            ": read it under the target's, or give a reflectance");
            lights = {reading_.light};
            out_.observer = reading_.observer;
        }
        for (const auto& id : lights)
            weights_.push_back(color::make_weights(library_.illuminant(id), library_.observer(out_.observer)));
        out_.target_is_prediction = !scene_.target || scene_.target->finish == finish_.name;
        if (out_.target_is_prediction) {
            out_.target = "the prediction";
            aim_ = search::aim_at(predicted_, lights, weights_);
            return;
        }
        // The board has just been read: it is held against the target as that is today.
        auto today = scene_;
        today.target->judge_at.reset();
        if (scene_.target->judge_at)
            out_.warnings.push_back(
                {"judged-today", scene_.target->place,
                 "the board was read new, so it is held against the target as it is now, not after " +
                     scene_.target->judge_at->text});
        const auto view = view_target(today, library_, solver_);
        out_.target = view.name;
        if (view.reflectance)
            aim_ = search::aim_at(*view.reflectance, lights, weights_);
        else
            aim_ = view.aim;
    }

    Lab measured(std::size_t l) const { return reading_.reflectance ? lab(grid(reading_), l) : *reading_.lab; }
    static spectral::Spectrum grid(const measure::Reading& r) { return spectral::to_grid(*r.reflectance).spectrum; }
    Lab lab(const spectral::Spectrum& s, std::size_t l) const {
        return color::to_lab(color::xyz(s, weights_[l]), weights_[l].white);
    }

    void compare() {
        for (std::size_t l = 0; l < aim_.lights.size(); ++l) {
            Compared c{aim_.lights[l].light, measured(l), lab(predicted_, l), aim_.lights[l].lab, 0, 0, ""};
            c.to_prediction = color::delta_e_00(c.measured, c.predicted);
            c.to_target = color::delta_e_00(c.measured, c.target);
            c.words = color::describe(c.target, c.measured);
            worst_prediction_ = std::max(worst_prediction_, c.to_prediction);
            worst_target_ = std::max(worst_target_, c.to_target);
            out_.lights.push_back(c);
        }
    }

    // What a board of exactly the predicted materials may be off by.
    void noise() {
        out_.noise = learn::board_noise({scene_.materials, scene_.wood, scene_.look.geometry, solver_}, finish_,
                                        weights_, reading_.spread_de.value_or(usual_spread_de));
    }

    learn::BoardReading board_reading(const measure::Reading& r, bool finished) {
        learn::BoardReading out;
        out.name = r.name;
        if (finished)
            for (std::size_t s = 0; s < finish_.steps.size(); ++s)
                if (finish_.steps[s].coats > 0) out.step = static_cast<int>(s) + 1, out.coat = finish_.steps[s].coats;
        out.spread_de = std::max(0.01, r.spread_de.value_or(usual_spread_de));
        out.weights = weights_.front();
        if (r.reflectance) {
            out.reflectance = grid(r);
            out.first_nm = std::max(380.0, r.reflectance->first_nm());
            out.last_nm = std::min(780.0, r.reflectance->last_nm());
        } else {
            out.lab = r.lab;
            out.weights = color::make_weights(library_.illuminant(r.light), library_.observer(r.observer));
        }
        return out;
    }

    // Is it laid by a finish, or searched? Not the powders that ready dyes were mixed of: those nobody has.
    bool names(const std::string& id) const {
        const auto in = [&](const std::vector<std::string>& list) {
            return std::find(list.begin(), list.end(), id) != list.end();
        };
        for (const auto& finish : scene_.finishes)
            for (const auto& step : finish.steps)
                for (const auto& part : step.mix)
                    if (part.use == id) return true;
        if (!scene_.search) return false;
        const auto& choices = scene_.search->choices;
        if (choices.dye && in(choices.dye->use)) return true;
        for (const auto room : search::put_on)
            if (const auto& coats = choices.of(room); coats && (in(coats->use) || in(coats->tint))) return true;
        return false;
    }

    void mend() {
        // What the scene says is on hand, or names at all: a touch of that. Of any other only when asked.
        const auto at_hand = [&](const std::string& id) {
            if (question_.buy) return true;
            if (scene_.search && !scene_.search->on_hand.empty()) {
                const auto& list = scene_.search->on_hand;
                return std::find(list.begin(), list.end(), id) != list.end();
            }
            return names(id);
        };
        material::Materials materials = scene_.materials;
        std::vector<std::string> touches;
        for (const auto kind : {material::Kind::stock, material::Kind::dye, material::Kind::liquid})
            for (const auto& id : library_.ids(kind)) {
                if (!materials.count(id)) materials[id] = library_.material(id);
                if (facts(kind).colorant && at_hand(id)) touches.push_back(id);
            }
        learn::FitQuestion ask;
        ask.materials = materials;
        ask.geometry = scene_.look.geometry;
        ask.boards = {{finish_.name, scene_.wood, finish_}};
        if (bare_) ask.readings.push_back(board_reading(*bare_, false));
        ask.readings.push_back(board_reading(reading_, true));
        ask.keep_unresolved = ask.leave_one_out = false;
        ask.fewest = 1;
        const learn::Fit fit(ask);
        for (const auto& f : fit.result().figures)
            if (f.resolved && f.headline) out_.learned.push_back(f);
        const auto laid = [&](const schedule::Finish& f) { return fit.as_laid(f); };
        const material::Materials written = materials;
        for (const auto& [id, m] : fit.result().materials) materials[id] = m;
        const search::ChangeQuestion question{
            {materials, scene_.wood, scene_.look.geometry, solver_}, finish_, aim_, touches, laid, &written};
        out_.unchanged_de00 = search::unchanged(question);
        const auto all = search::changes(question);
        material::Materials learned = written;
        auto known = learn::learned_of(fit.result(), learned);
        const auto spread = [&](const search::Change& c) {
            known.same_board = c.on_this_board;
            return appearance::spreads({learned,
                                        scene_.wood,
                                        {laid(c.finish)},
                                        scene_.look.geometry,
                                        solver_,
                                        {weights_.front()},
                                        appearance::StagesAsked::last,
                                        known,
                                        base::parallel_for_all})
                .front()
                .regions.back()
                .front();
        };
        const auto proposal = [&](const search::Change& c) {
            const auto region = spread(c);
            Proposal p{c,
                       search::sentence(c, finish_, written),
                       {},
                       region.rms_de00,
                       region.materials_de00,
                       region.boards_de00,
                       caution_of(c)};
            const auto seen = search::finished(question.setting, laid(c.finish));
            for (std::size_t l = 0; l < weights_.size(); ++l) p.expected.push_back(lab(seen, l));
            return p;
        };
        for (const auto& c : all) {
            const bool other = std::none_of(out_.proposals.begin(), out_.proposals.end(), [&](const Proposal& p) {
                return p.change.kind == c.kind &&
                       (c.kind != search::Change::Kind::touch ? p.change.step == c.step
                                                              : p.change.material == c.material);
            });
            if (other && out_.proposals.size() < 3) out_.proposals.push_back(proposal(c));
            if (c.on_this_board && !out_.on_this_board) out_.on_this_board = proposal(c);
        }
        note_far_figures();
        separate_wood_from_dye(fit.result().figures);
        advise();
    }

    // A change by more than half as much again, or to less than two thirds: the fit was told of no board so far away.
    std::string caution_of(const search::Change& c) const {
        double factor = 1;
        if (c.kind == search::Change::Kind::strength || c.kind == search::Change::Kind::film) factor = c.amount;
        if (const auto& was = finish_.steps.at(c.step).cut_lb; was && c.kind == search::Change::Kind::cut)
            factor = c.amount / *was;
        if (factor <= most_trusted_change && factor >= 1 / most_trusted_change) return "";
        return "a large change, " + times_text(factor) +
               ": it goes far outside what was measured and what the library expects; try it on scrap first, and half "
               "of it (" +
               times_text((1 + factor) / 2) + ") beside it";
    }

    static std::string times_text(double factor) { return "to " + std::to_string(std::lround(factor * 100)) + " %"; }

    // Figures that had to move further from the library than it expects of one in twenty.
    void note_far_figures() {
        for (const auto& f : out_.learned) {
            const double off = f.factor ? std::log(f.value / f.library) : f.value - f.library;
            const double spreads = std::abs(off) / f.library_error;
            if (!(spreads > most_usual_spreads)) continue;
            out_.advice.push_back(
                "by this board " + f.figure + " of " + f.material + " lies " + tenths(spreads) +
                " of its spreads from the library: check the reading, the wood and what was put on before "
                "relying on the change");
        }
    }

    static std::string tenths(double v) {
        const long n = std::lround(v * 10);
        return std::to_string(n / 10) + "." + std::to_string(n % 10);
    }

    // One reading of wood and dye together: if neither alone must have moved, either may have.
    void separate_wood_from_dye(const std::vector<learn::FittedFigure>& figures) {
        if (bare_) return;
        bool dyed = false;
        for (const auto& f : figures) {
            if (!f.headline || (f.figure != "strength" && f.figure != "bare L*")) continue;
            if (f.library < f.low() || f.library > f.high()) return;
            dyed = dyed || f.figure == "strength";
        }
        if (dyed)
            out_.advice.push_back(
                "this reading does not tell the wood from the dye: read the next board while it is bare as well, and "
                "name that "
                "reading with --bare");
    }

    void advise() {
        const auto& first = out_.lights.front();
        const double dark = first.target.l - first.measured.l;
        if (out_.proposals.empty())
            out_.advice.push_back(
                "no one change of this finish brings the next board nearer to the target; 'foretone match' looks for "
                "another "
                "finish");
        else if (out_.proposals.front().change.worst_de00 > std::max(1.5, out_.noise.bound_de00))
            out_.advice.push_back(
                "no one change reaches the target: the best leaves a difference that is seen; 'foretone match' looks "
                "for another "
                "finish");
        if (dark > 1) {
            out_.advice.push_back(
                "this board is darker than the target, and no coat lifts it: clear coats, more coats, another topcoat "
                "and time "
                "leave it as dark or darken it");
            out_.advice.push_back(std::string("what can lift it: sanding back to bare wood (through the dyed zone; on "
                                              "veneer only as far as it is "
                                              "thick) and starting again") +
                                  (out_.proposals.empty() ? "" : " with the change above") +
                                  ", or a darker target agreed with the client; wear a dust mask, finish dust is "
                                  "harmful and can catch fire");
        } else if (!out_.on_this_board && !out_.proposals.empty()) {
            out_.advice.push_back(
                "the change is for the next board: what this board has had cannot be taken out of it without sanding "
                "back");
        }
    }

    const scene::Scene& scene_;
    const scene::Library& library_;
    const CorrectQuestion& question_;
    appearance::Solver solver_;
    schedule::Finish finish_;
    measure::Reading reading_;
    std::optional<measure::Reading> bare_;
    spectral::Spectrum predicted_{};
    std::vector<color::Weights> weights_;
    search::Aim aim_;
    double worst_prediction_ = 0, worst_target_ = 0;
    Correction out_;
};

}  // namespace

Correction correct(const scene::Scene& scene, const scene::Library& library, const CorrectQuestion& question) {
    return Corrector(scene, library, question).run();
}

}  // namespace foretone::job
