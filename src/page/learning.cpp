// What boards that were read teach: the command line's `fit` and `correct`, and what taking them over changes in the
// text of the job.
#include <algorithm>

#include "foretone/job/correct.hpp"
#include "foretone/job/fit_next.hpp"
#include "foretone/report/json.hpp"
#include "foretone/scene/boards.hpp"
#include "foretone/scene/output.hpp"
#include "foretone/scene/readings.hpp"
#include "held_files.hpp"
#include "session.hpp"

namespace foretone::page {
namespace {

using schedule::Step;

// Four figures are more than a scale or a syringe shows.
double as_written(double v) {
    if (v == 0) return 0;
    const double unit = std::pow(10.0, std::floor(std::log10(std::abs(v))) - 3);
    return unit < 1 ? std::round(v / unit) / std::round(1 / unit) : std::round(v / unit) * unit;
}

bool same_mix(const Step& a, const Step& b) {
    return a.mix.size() == b.mix.size() && std::equal(a.mix.begin(), a.mix.end(), b.mix.begin(), [](auto& x, auto& y) {
               return x.use == y.use && x.amount == y.amount && x.value == y.value;
           });
}

Json mix_json(const Step& step) {
    auto mix = Json::array();
    for (const auto& p : step.mix) {
        mix.push_back({{"use", p.use}});
        if (p.amount == schedule::Amount::rest)
            mix.back()["rest"] = true;
        else
            mix.back()[amount_key(p.amount)] = as_written(p.value);
    }
    return mix;
}

/// The changes that make step `before` of a finish the step `after`. Its number in the text is `step` of `finish`.
class StepEdits {
public:
    StepEdits(Json& out, std::size_t finish, std::size_t step) : out_(out), finish_(finish), step_(step) {}

    void all(const Step& before, const Step& after) {
        if (!same_mix(before, after)) {
            set("use", nullptr);
            set("mix", mix_json(after));
        }
        if (before.coats != after.coats) set("coats", after.coats);
        if (before.method != after.method && after.method)
            set("method", material::method_words[static_cast<std::size_t>(*after.method)]);
        number("cut_lb", before.cut_lb, after.cut_lb);
        number("sheen_gu60", before.sheen_gu60, after.sheen_gu60);
        if (before.wet_um == after.wet_um && before.wet_g_per_m2 == after.wet_g_per_m2 &&
            before.coverage_m2_per_l == after.coverage_m2_per_l)
            return;
        for (const char* key : {"wet_um", "wet_mil", "wet_g_per_m2", "coverage_m2_per_l", "coverage_ft2_per_gal"})
            set(key, nullptr);
        number("wet_um", {}, after.wet_um);
        number("wet_g_per_m2", {}, after.wet_g_per_m2);
        number("coverage_m2_per_l", {}, after.coverage_m2_per_l);
    }

private:
    void set(const char* key, Json value) {
        out_.push_back(
            {{"do", "set"}, {"finish", finish_}, {"step", step_}, {"key", key}, {"value", std::move(value)}});
    }
    void number(const char* key, const std::optional<double>& before, const std::optional<double>& after) {
        if (after && after != before) set(key, as_written(*after));
    }

    Json& out_;
    std::size_t finish_, step_;
};

/// The changed finish as a copy of the one it was made of, after all others: everything else that was written of it
/// stays.
Json taken_over(const scene::Scene& s, std::size_t finish, const schedule::Finish& changed, const std::string& name) {
    Json edits = {{{"do", "copy-finish"}, {"finish", finish}, {"value", name}}};
    const auto& before = s.finishes[finish];
    for (std::size_t i = 0; i < before.steps.size() && i < changed.steps.size(); ++i)
        StepEdits(edits, s.finishes.size(), i).all(before.steps[i], changed.steps[i]);
    for (std::size_t i = before.steps.size(); i < changed.steps.size(); ++i) {
        edits.push_back({{"do", "add-step"},
                         {"finish", s.finishes.size()},
                         {"place", i},
                         {"keys", {{"mix", mix_json(changed.steps[i])}}}});
        StepEdits(edits, s.finishes.size(), i).all({.mix = changed.steps[i].mix}, changed.steps[i]);
    }
    return edits;
}

std::string free_name(const scene::Scene& s, const std::string& wanted) {
    const auto taken = [&](const std::string& name) {
        return std::any_of(s.finishes.begin(), s.finishes.end(), [&](const auto& f) { return f.name == name; });
    };
    std::string name = wanted;
    for (int i = 2; taken(name); ++i) name = wanted + " " + std::to_string(i);
    return name;
}

Json place_json(const optics::Geometry& g) { return scene::geometry_text(g); }

}  // namespace

// {measured: the name of a file held, finish, sample, bare, buy}
Json Session::correct(const Json& request) {
    const auto s = read(request);
    job::CorrectQuestion q;
    q.measured = request.at("measured").get<std::string>();
    q.finish = request.value("finish", std::string());
    q.sample = request.value("sample", std::string());
    q.bare = request.value("bare", std::string());
    q.buy = request.value("buy", false);
    const auto c = job::correct(s, library_, q);
    const auto at = std::find_if(s.finishes.begin(), s.finishes.end(), [&](auto& f) { return f.name == c.finish; });
    const auto finish = static_cast<std::size_t>(at - s.finishes.begin());
    const auto name = free_name(s, c.finish + ", corrected");
    Json out = {{"json", report::correct_json(s, c)}, {"name", name}, {"edits", Json::array()}};
    for (const auto& p : c.proposals) out["edits"].push_back(taken_over(s, finish, p.change.finish, name));
    return out;
}

// {boards: the name of a boards file held}: what `fit` finds and writes, and the edits that take it over.
Json Session::fit(const Json& request) {
    const auto name = request.at("boards").get<std::string>();
    const auto boards = scene::read_boards(name, library_);
    const auto fit = scene::fit_boards(boards);
    const auto& result = fit.result();
    const auto next = job::fit_next(boards, result);
    auto file = scene::file_word(boards.title) + ".toml";
    if (held_files().contains(file)) file = scene::file_word(boards.title) + "-fitted.toml";
    Json names = Json::object(), states = Json::array();
    for (const auto& id : result.changed)
        if (boards.written_as(id) != id) names[id] = boards.written_as(id);
    for (std::size_t i = 0; i < result.readings.size(); ++i) states.push_back(boards.state(i));
    return {{"json", report::fit_json(boards, result, next, file)},
            {"toml", scene::fitted_toml(boards, result)},
            {"file", file},
            {"states", states},
            {"edits", {{{"do", "shelf"}, {"files", {file}}}, {{"do", "rename-materials"}, {"names", names}}}}};
}

// {readings: the name of a file held}: what it holds, to choose from.
Json Session::readings(const Json& request) const {
    const auto name = request.at("readings").get<std::string>();
    measure::Options stated;
    stated.light = request.value("light", std::string());
    stated.observer = request.value("observer", std::string());
    const auto all = scene::read_readings(name, library_, stated);
    Json out = {{"format", all.format}, {"readings", Json::array()}, {"notes", Json::array()}};
    for (const auto& r : all.readings) {
        out["readings"].push_back({{"name", r.name}, {"curve", r.reflectance.has_value()}, {"light", r.light}});
        if (r.geometry) out["readings"].back()["geometry"] = place_json(*r.geometry);
        if (out["readings"].size() == 200) break;
    }
    for (const auto& n : all.notes) out["notes"].push_back(n.text);
    return out;
}

}  // namespace foretone::page
