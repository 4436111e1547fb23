// Requests, by "do":
//
//   materials                          what there is to choose from
//   sort    files                      which of several TOML files is the scene
//   change  text file edits [light]    the text with the changes made, and what `look` says of it
//   look    text file [light after]    every finish at every stage, without spread: fast enough for a slider
//   allow   text file use             the [search] that these materials make, and nothing tried yet
//   allow   text file search          the text with that [search]
//   preview | coats | plan | match     what the command line's verbs give, under the same names
//   board   finish stage light ...     pixels of one board on the wall
//   photo   card [finish] ...          pixels of the photograph handed over, bare or finished
//   sheet   finishes paper [after]     the client's sheet, and its pixels
//   correct text file measured ...     a board that was read, against its prediction and its target, and the changes
//   fit     boards                     materials learned from a boards file that was handed over
//   step_board text file finish ...    a finish and what was read of it, as such a boards file
//   readings readings                  what a file of readings holds
//   years   text file light after      every finish after some time: its range, and what part of the change is what
//
// Every answer about a scene carries either what was asked or "problems".
#include "session.hpp"

#include <algorithm>
#include <numeric>

#include "foretone/report/findings_json.hpp"
#include "foretone/color/closeness.hpp"
#include "foretone/color/words.hpp"
#include "foretone/job/coats.hpp"
#include "foretone/scene/edit.hpp"
#include "foretone/scene/file_kind.hpp"
#include "foretone/report/json.hpp"
#include "foretone/report/plan_card.hpp"
#include "foretone/report/sureness.hpp"
#include "foretone/job/plan_rounding.hpp"
#include "foretone/job/usual_search.hpp"
#include "foretone/schedule/drying.hpp"
#include "foretone/schedule/measure.hpp"

namespace foretone::page {
namespace {

Json problem(const std::string& id, const std::string& where, const std::string& text) {
    return {{"id", id}, {"where", where}, {"text", text}};
}

Json problems(const scene::InputError& e) {
    Json list = Json::array();
    for (const auto& p : e.problems) {
        list.push_back(problem(p.id, p.place.text(), p.text));
        list.back()["line"] = p.place.line;
        if (list.size() == 20) break;
    }
    return list;
}

void check(const scene::Scene& s) {
    constexpr Limits limits;
    const auto refuse = [&](const std::string& text) { throw scene::InputError("page-limit", {s.file, 1, 1}, text); };
    if (s.finishes.size() > limits.finishes)
        refuse("the page takes at most " + std::to_string(limits.finishes) +
               " finishes; use the command line for more");
    for (const auto& f : s.finishes) {
        if (f.steps.size() > limits.steps)
            refuse("the page takes at most " + std::to_string(limits.steps) + " steps in a finish");
        int coats = 0;
        for (const auto& step : f.steps) {
            coats += step.coats;
            if (step.mix.size() > limits.parts)
                refuse("the page takes at most " + std::to_string(limits.parts) + " parts in a mix");
        }
        if (coats > limits.coats)
            refuse("the page takes at most " + std::to_string(limits.coats) + " coats in a finish, \"" + f.name +
                   "\" has " + std::to_string(coats));
    }
}

Json color_json(const job::SeenColor& c) {
    return {{"light", c.light},
            {"Lab", {c.lab.l, c.lab.a, c.lab.b}},
            {"hex", c.screen.hex()},
            {"in_gamut", c.screen.in_gamut}};
}

/// Less dry film than this is told as soaking in, µm: thinner than the scratches of the finest paper it would fill
/// (P320 and up leave some 2 µm; common practice).
constexpr double least_film_um = 0.5;

// Dry film that each step leaves, µm, and whether it is told as a film at all.
void add_films(Json& finish, const appearance::Stages& stages) {
    double before = 0;
    for (std::size_t step = 0; step < finish["steps"].size(); ++step) {
        double after = before;
        for (const auto& stage : stages.stages)
            if (stage.after_step == static_cast<int>(step) + 1) after = stage.film_um;
        auto& j = finish["steps"][step];
        j["film_um"] = std::max(0.0, after - before);
        j["leaves_film"] = !j.value("soaks", false) && j["film_um"] >= least_film_um;
        before = after;
    }
}

std::size_t place_of_largest(const std::vector<double>& values) {
    return static_cast<std::size_t>(std::max_element(values.begin(), values.end()) - values.begin());
}

}  // namespace

struct Session::Search {
    scene::Scene scene;
    job::Search search;
    search::Best best{job::Search::keep};
    std::size_t next = 0;

    Search(scene::Scene s, const scene::Library& library, const appearance::Solver& solver)
        : scene(std::move(s)), search(scene, library, solver) {}
};

Session::Session() : solver_(appearance::two_flux_solver()) {}
Session::~Session() = default;

std::string Session::answer(const std::string& request) {
    Json out;
    try {
        out = dispatch(Json::parse(request));
    } catch (const scene::InputError& e) {
        out = {{"problems", problems(e)}};
    } catch (const schedule::Fault& e) {
        out = {{"problems", {problem(e.id, "", e.what())}}};
    } catch (const photo::PhotoFault& e) {
        out = {{"problems", {problem(e.id, "", e.what())}}};
    } catch (const std::exception& e) {
        out = {{"problems", {problem("unexpected", "", e.what())}}};
    }
    return out.dump(-1, ' ', false, Json::error_handler_t::replace);
}

Json Session::dispatch(const Json& request) {
    const auto what = request.at("do").get<std::string>();
    if (what == "materials") return materials_json(library_);
    if (what == "sort") return sort(request);
    if (what == "change") return change(request);
    if (what == "look") return look(request);
    if (what == "allow") return allow(request);
    if (what == "preview") return details(request);
    if (what == "board") return board(request);
    if (what == "photo") return photo(request);
    if (what == "sheet") return sheet(request);
    if (what == "coats") return coats(request);
    if (what == "plan") return plan(request);
    if (what == "match") return match(request);
    if (what == "years") return years(request);
    if (what == "correct") return correct(request);
    if (what == "fit") return fit(request);
    if (what == "step_board") return step_board(request);
    if (what == "readings") return readings(request);
    throw std::invalid_argument("page::Session: unknown request '" + what + "'");
}

scene::Scene Session::read(const Json& request) const {
    const auto text = request.at("text").get<std::string>();
    const auto file = request.at("file").get<std::string>();
    if (text.size() > Limits{}.bytes)
        throw scene::InputError("file-too-large", {file},
                                "the file has " + std::to_string(text.size()) + " bytes; the largest read is " +
                                    std::to_string(Limits{}.bytes) + " (a scene has a few thousand)");
    auto s = scene::read_scene_text(text, file, "", library_);
    check(s);
    return s;
}

const color::Weights& Session::weights(const std::string& light, const std::string& observer) {
    const auto key = light + "/" + observer;
    const auto it = weights_.find(key);
    if (it != weights_.end()) return it->second;
    return weights_[key] = color::make_weights(library_.illuminant(light), library_.observer(observer));
}

const Worked& Session::worked(const scene::Scene& s, std::size_t i) {
    const auto& key = keys_.at(i);
    const auto it = worked_.find(key);
    if (it != worked_.end()) return it->second;
    if (worked_.size() > 64) worked_.clear();
    int step = 0;
    try {
        Worked w{appearance::stages(s.materials, s.wood, s.finishes[i], s.look.geometry, solver_, &step)};
        return worked_[key] = std::move(w);
    } catch (const schedule::Fault& fault) {
        throw s.at(fault, i, static_cast<std::size_t>(std::max(step, 0)));
    }
}

Json Session::change(const Json& request) {
    Json next = request;
    next["text"] = edited(request.at("text"), request.at("file"), request.at("edits"));
    const auto text = next["text"];
    try {
        auto out = look(next);
        out["text"] = text;
        return out;
    } catch (const scene::InputError& e) {
        return {{"problems", problems(e)}, {"text", text}};
    }
}

Json Session::allow(const Json& request) const {
    if (request.contains("search")) {
        const Json edits = {{{"do", "table"}, {"name", "search"}, {"keys", request["search"]}}};
        return {{"text", edited(request.at("text"), request.at("file"), edits)}};
    }
    const auto table =
        job::usual_search(library_, request.at("use").get<std::vector<std::string>>(), read(request).materials);
    return {{"search", written_json({table})}};
}

std::string Session::all_but_words(std::string text, const std::string& file) {
    if (text != told_) {
        scene::SceneText bare(text, file);
        bare.remove("title");
        bare.remove("notes");
        told_ = std::move(text);
        bare_ = bare.text();
    }
    return bare_;
}

Json Session::look(const Json& request) {
    auto s = read(request);
    // Whatever lies outside the finishes may change how each of them looks, but for what it is called and noted of it.
    if (auto common = all_but_words(scene::SceneText(request.at("text"), s.file).without_finishes(), s.file);
        common != common_) {
        worked_.clear();
        aged_.clear();
        maps_.clear();
        boards_.clear();
        spectra_.clear();
        tables_.clear();
        common_ = std::move(common);
    }
    // A finish is known by all that is told of it but its name; whoever asks for it later in this scene finds it by
    // that.
    last_.reset();
    keys_.clear();
    std::vector<Json> models;
    for (const auto& f : s.finishes) {
        models.push_back(finish_model(f, s.materials, weights("D65", "2deg")));
        Json key = models.back();
        key.erase("name");
        keys_.push_back(key.dump());
    }
    Json out = scene_json(s);
    out["own"] = own_json(s, library_);
    out["search"] = s.search ? search_json(request.at("text")) : Json(nullptr);
    out["times"] = times_json(s);
    const auto after = after_of(request, s.file);
    auto lights = s.look.lights;
    const auto shown = request.value("light", lights.front());
    if (std::find(lights.begin(), lights.end(), shown) == lights.end()) lights.push_back(shown);

    std::optional<job::TargetView> target;
    if (s.target) {
        std::string key = common_;
        for (std::size_t i = 0; i < s.finishes.size(); ++i)
            if (s.finishes[i].name == s.target->finish) key += keys_[i];
        if (key != target_key_) target_ = job::view_target(s, library_, solver_);
        target_key_ = key;
        target = target_;
    }
    out["target_colors"] = Json::array();
    if (target) {
        out["target"]["name"] = target->name;
        for (const auto& c : target->colors) out["target_colors"].push_back(color_json(c));
    }
    // What a match rests on: a finish more or less changes nothing in it.
    out["all_but_finishes"] = scene::all_but_finishes(request.at("text"), s.file);
    out["finishes"] = Json::array();
    for (std::size_t i = 0; i < s.finishes.size(); ++i) {
        Json& f = models[i];
        const auto& w = worked(s, i);
        f["stages"] = Json::array();
        for (const auto& stage : w.stages.stages) {
            Json j = {{"stage", appearance::word(stage.kind)},
                      {"after_step", stage.after_step},
                      {"coat", stage.coat},
                      {"action", stage.action},
                      {"film_um", stage.film_um},
                      {"colors", Json::array()}};
            const auto total = stage.reading.total();
            for (const auto& light : lights)
                j["colors"].push_back(color_json(job::see(total, light, weights(light, s.look.observer))));
            f["stages"].push_back(std::move(j));
        }
        add_films(f, w.stages);
        const auto finished = w.stages.stages.back().reading.total();
        if (after) f["aged"] = aged_json(s, i, *after, finished, lights);
        if (target) {
            f["to_target"] = Json::array();
            const auto de = search::differences(target->aim, finished);
            for (std::size_t l = 0; l < de.size(); ++l) {
                const auto own = color::to_lab(color::xyz(finished, target->weights[l]), target->weights[l].white);
                f["to_target"].push_back({{"light", target->lights[l]},
                                          {"dE00", de[l]},
                                          {"closeness", color::closeness(de[l])},
                                          {"words", color::describe(target->aim.lights[l].lab, own)}});
            }
            f["worst"] = place_of_largest(de);
        }
        f["findings"] = report::findings_json(schedule::check_order(s.finishes[i], s.materials, &s.wood_data()));
        f["notes"] = w.stages.notes;
        f["cautions"] = job::cautions_of(s.materials, s.finishes[i]);
        out["finishes"].push_back(std::move(f));
    }
    out["cautions"] = report::cautions_json(job::cautions_of(s));
    out["warnings"] = Json::array();
    for (const auto& w : s.warnings) out["warnings"].push_back(problem(w.id, w.place.text(), w.text));
    last_text_ = request.at("text");
    last_ = std::move(s);
    return out;
}

Json Session::details(const Json& request) {
    const auto s = read(request);
    const auto p = job::preview(s, library_, solver_);
    Json out = {{"json", report::preview_json(p)}, {"outcomes", Json::array()}, {"spread_words", Json::array()}};
    for (const auto& f : p.finishes) {
        out["spread_words"].push_back(report::spread_words(f.stages.back()));
        Json lights = Json::array();
        for (const auto& light : f.plausible) {
            lights.push_back(Json::array());
            for (const auto& c : light) lights.back().push_back(c.hex());
        }
        out["outcomes"].push_back(std::move(lights));
    }
    return out;
}

Json Session::coats(const Json& request) {
    const auto s = read(request);
    const job::CoatsQuestion question{request.value("finish", std::string()), request.value("step", 0),
                                      request.value("upto", 6)};
    const auto c = job::coats(s, library_, solver_, question);
    Json out = {{"json", report::coats_json(s, c)}, {"worst", Json::array()}, {"added_dE00", Json::array()}};
    // Of each count of coats: its worst light, and what its last coat adds at most.
    for (const auto& n : c.counts) {
        out["worst"].push_back(n.to_target.empty() ? 0 : place_of_largest(n.to_target));
        out["added_dE00"].push_back(n.added.empty() ? Json(nullptr) : Json(n.added[place_of_largest(n.added)]));
    }
    return out;
}

// {files: {name: text, ...}} of TOML files; the answer says of each what it is.
Json Session::sort(const Json& request) const {
    Json out = {{"scenes", Json::array()}, {"boards", Json::array()}, {"others", Json::array()}};
    for (const auto& [name, content] : request.at("files").items()) {
        const auto text = content.get<std::string>();
        out[scene::is_scene(text, name)    ? "scenes"
            : scene::is_boards(text, name) ? "boards"
                                           : "others"]
            .push_back(name);
    }
    return out;
}

Json Session::plan(const Json& request) {
    const auto s = read(request);
    job::PlanRequest r;
    r.finish = request.at("finish").get<std::size_t>();
    if (r.finish >= s.finishes.size())
        throw std::invalid_argument("page::Session: there is no finish " + std::to_string(r.finish));
    r.area_m2 = schedule::amount_in(request.at("area").get<std::string>(), schedule::Dimension::area, 1e-4, 1e5);
    r.tools.scale_g = request.value("scale_g", r.tools.scale_g);
    r.tools.syringe_ml = request.value("syringe_ml", r.tools.syringe_ml);
    if (!request.contains("syringe_ml")) r.tools.syringe_up_to_ml = schedule::usual_syringe_up_to_ml;
    if (!(r.tools.scale_g >= 1e-4 && r.tools.scale_g <= 1000 && r.tools.syringe_ml >= 1e-3 &&
          r.tools.syringe_ml <= 1000))
        throw schedule::Fault("tool-range", -1,
                              "a scale shows steps of 0.0001 to 1000 g, a syringe of 0.001 to 1000 mL");
    if (request.contains("temp"))
        r.air.celsius =
            schedule::read_amount(request["temp"].get<std::string>(), schedule::Dimension::temperature).stored();
    r.air.humidity_percent = request.value("humidity", r.air.humidity_percent);
    schedule::check(r.air);
    r.start = request.value("start", std::string());
    if (!r.start.empty()) job::moment(r.start, 0);
    auto p = job::plan(s, r);
    job::work_out_rounding(p, s, library_, solver_);
    return {{"json", report::plan_json(p)}, {"card", report::plan_card(p)}};
}

// A match goes in rounds, so that it can be watched and stopped: "begin", "go" until it says it is done, "end".
Json Session::match(const Json& request) {
    const auto part = request.at("part").get<std::string>();
    if (part == "begin") search_ = std::make_unique<Search>(read(request), library_, solver_);
    if (!search_) throw std::invalid_argument("page::Session: no match was begun");
    auto& s = *search_;
    const auto count = s.search.space().ways.size();
    if (part == "go") {
        const std::size_t until = std::min(count, s.next + request.value("ways", std::size_t{1}));
        for (; s.next < until; ++s.next) s.search.engine().examine(s.next, s.best);
    }
    if (part == "end") {
        const auto found =
            s.search.conclude(s.best, s.next, [this](std::size_t n, const std::function<void(std::size_t)>& job) {
                for (std::size_t i = 0; i < n; ++i) {
                    job(i);
                    progress(static_cast<double>(i + 1) / static_cast<double>(n));
                }
            });
        Json out = {{"json", report::match_json(s.scene, found)}};
        search_.reset();
        return out;
    }
    return {{"done", s.next}, {"of", count}, {"recipes", s.search.space().size()}};
}

}  // namespace foretone::page
