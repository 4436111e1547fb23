// Years on the page: the finished boards after some time where the piece stands. Colors come at once, one solve each;
// how far real pieces may lie from them, and what of the change is wood, film and dye, takes longer and is asked for by
// itself.
#include <algorithm>

#include "foretone/base/number.hpp"
#include "foretone/color/words.hpp"
#include "foretone/job/aged.hpp"
#include "foretone/report/aged_words.hpp"
#include "session.hpp"

namespace foretone::page {
namespace {

constexpr std::array<const char*, 5> usual_times = {"1 month", "6 months", "1 year", "5 years", "20 years"};

}  // namespace

std::optional<scene::Duration> after_of(const Json& request, const std::string& file) {
    const auto text = request.value("after", std::string());
    if (text.empty()) return std::nullopt;
    const auto out = scene::duration_from(text);
    if (!out)
        throw scene::InputError("duration-unknown", {file, 1, 1},
                                "\"" + text + "\" is no time; " + scene::duration_words());
    return out;
}

Json times_json(const scene::Scene& s) {
    std::vector<scene::Duration> times = s.look.after;
    for (const char* text : usual_times) times.push_back(*scene::duration_from(text));
    std::stable_sort(times.begin(), times.end(), [](const auto& a, const auto& b) { return a.days < b.days; });
    const auto same = [](const auto& a, const auto& b) { return a.days == b.days; };
    times.erase(std::unique(times.begin(), times.end(), same), times.end());
    Json out = {{"after", Json::array()},
                {"exposure", material::word(s.look.exposure)},
                {"where", job::place_text(s.look.exposure)},
                {"places", Json::array()}};
    for (const auto& t : times)
        if (t.days > 0) out["after"].push_back(t.text);
    for (const auto word : material::stands_words) {
        const auto place = *material::stands_from(word);
        out["places"].push_back(
            {{"id", word}, {"name", job::place_text(place)}, {"meaning", material::exposure(place).meaning}});
    }
    return out;
}

const WorkedAge& Session::worked_age(const scene::Scene& s, std::size_t i, const scene::Duration& after) {
    const auto key = keys_.at(i) + "/" + base::shortest(after.days);
    if (const auto it = aged_.find(key); it != aged_.end()) return it->second;
    if (aged_.size() > 40) aged_.clear();
    WorkedAge w;
    w.finish = job::aged_finish(s, i, after);
    w.board = appearance::boards(w.finish.materials, w.finish.wood, w.finish.finish).back();
    w.reflectance = appearance::stages(w.finish.materials, w.finish.wood, w.finish.finish, s.look.geometry, solver_)
                        .stages.back()
                        .reading.total();
    return aged_[key] = std::move(w);
}

Json Session::aged_json(const scene::Scene& s, std::size_t i, const scene::Duration& after,
                        const spectral::Spectrum& fresh, const std::vector<std::string>& lights) {
    const auto& old = worked_age(s, i, after);
    Json out = {{"after", after.text}, {"colors", Json::array()}};
    for (const auto& light : lights) {
        const auto& w = weights(light, s.look.observer);
        const auto then = job::see(old.reflectance, light, w), now = job::see(fresh, light, w);
        out["colors"].push_back({{"light", light},
                                 {"Lab", {then.lab.l, then.lab.a, then.lab.b}},
                                 {"hex", then.screen.hex()},
                                 {"in_gamut", then.screen.in_gamut},
                                 {"from_new_words", color::describe(now.lab, then.lab)}});
    }
    return out;
}

// {after, light}
Json Session::years(const Json& request) {
    auto s = read(request);
    const auto after = after_of(request, s.file);
    if (!after) throw std::invalid_argument("page::Session: years of no time");
    s.look.lights = {request.at("light").get<std::string>()};
    s.look.after = {*after};
    const auto aged = job::see_aged(s, {weights(s.look.lights.front(), s.look.observer)}, solver_);
    const auto wood = job::age_class(s);
    Json out = {{"wood", {{"class", wood.word}, {"meaning", wood.meaning}, {"published", wood.published}}},
                {"finishes", Json::array()}};
    for (const auto& times : aged) {
        const auto& a = times.front();
        Json outcomes = Json::array();
        for (const auto& c : a.plausible.front()) outcomes.push_back(c.hex());
        out["finishes"].push_back(
            {{"outcomes", outcomes},
             {"from_new_dE00", a.from_new_de00.front()},
             {"dE00_90", a.colors.front().region.de00_90},
             {"spread_words", report::aged_spread_words(a, 0)},
             {"parts_dE00", {{"wood", a.parts.wood}, {"film", a.parts.film}, {"dye", a.parts.dye}}},
             {"parts_words", report::aged_parts_words(a.parts)}});
    }
    return out;
}

}  // namespace foretone::page
