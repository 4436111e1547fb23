#include "foretone/appearance/spread.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>

#include "foretone/color/lab.hpp"
#include "foretone/material/figures.hpp"

namespace foretone::appearance {
namespace {
using color::Lab;
using material::Material;
using material::Shelf;

// Everything the finish draws on: the wood, its parts, and what those are made of.
std::set<std::string> used_ids(const Shelf& shelf, const std::string& wood, const schedule::Finish& finish) {
    std::set<std::string> ids = {wood};
    const auto add = [&](const auto& self, const std::string& id) -> void {
        if (id.empty() || !shelf.count(id) || !ids.insert(id).second) return;
        const auto& data = shelf.at(id).data;
        if (const auto* stock = std::get_if<material::Stock>(&data)) {
            self(self, stock->carrier);
            for (const auto& load : stock->mix) self(self, load.use);
        }
        if (const auto* binder = std::get_if<material::Binder>(&data)) self(self, binder->carrier);
    };
    for (const auto& step : finish.steps)
        for (const auto& part : step.mix) add(add, part.use);
    return ids;
}

std::vector<std::vector<Lab>> colors(const Stages& s, const std::vector<color::Weights>& lights) {
    std::vector<std::vector<Lab>> out;
    for (const auto& stage : s.stages) {
        out.emplace_back();
        const auto total = stage.reading.total();
        for (const auto& w : lights) out.back().push_back(color::to_lab(color::xyz(total, w), w.white));
    }
    return out;
}

class Sum {
public:
    Sum(std::vector<std::vector<Lab>> base, Spread& out) : base_(std::move(base)), out_(out) {
        for (const auto& stage : base_) out_.de00.emplace_back(stage.size(), 0.0);
    }
    void add(const std::string& what, const std::vector<std::vector<Lab>>& moved) {
        for (std::size_t s = 0; s < base_.size(); ++s)
            for (std::size_t l = 0; l < base_[s].size(); ++l) {
                const double de = color::delta_e_00(base_[s][l], moved[s][l]);
                out_.de00[s][l] += de * de;
            }
        if (!base_.empty() && !base_.back().empty()) out_.contributions.push_back({what, color::delta_e_00(base_.back()[0], moved.back()[0])});
    }
    void finish() {
        for (auto& stage : out_.de00)
            for (double& v : stage) v = std::sqrt(v);
        std::stable_sort(out_.contributions.begin(), out_.contributions.end(),
                         [](const auto& a, const auto& b) { return a.de00 > b.de00; });
    }

private:
    std::vector<std::vector<Lab>> base_;
    Spread& out_;
};

}  // namespace

Spread spread(const Shelf& shelf, const std::string& wood, const schedule::Finish& finish, optics::Geometry geometry, const Solver& solver,
              const std::vector<color::Weights>& lights) {
    Spread out;
    Sum sum(colors(stages(shelf, wood, finish, geometry, solver), lights), out);

    // Moves one thing and works out the stages; a move that leads to an impossible step (a film beyond its limits) is made the other way.
    const auto moved = [&](const std::string& id, std::size_t index) -> std::optional<Stages> {
        for (const double sigmas : {1.0, -1.0}) {
            Shelf other = shelf;
            material::move(material::figures(other.at(id))[index], sigmas);
            try {
                return stages(other, wood, finish, geometry, solver);
            } catch (const schedule::Fault&) {
            }
        }
        return std::nullopt;
    };

    for (const auto& id : used_ids(shelf, wood, finish)) {
        Material copy = shelf.at(id);
        const auto list = material::figures(copy);
        for (std::size_t i = 0; i < list.size(); ++i) {
            if (!list[i].optical) continue;
            const auto mark = list[i].from().mark;
            if (mark > out.rests_on) out.weakest.clear();
            out.rests_on = material::weaker(out.rests_on, mark);
            if (mark == out.rests_on && (out.weakest.empty() || out.weakest.back() != id)) out.weakest.push_back(id);
            if (list[i].sd() <= 0) continue;
            if (const auto s = moved(id, i)) sum.add(id + " " + list[i].key, colors(*s, lights));
        }
    }
    for (std::size_t s = 0; s < finish.steps.size(); ++s)
        sum.add("step " + std::to_string(s + 1) + " wet film",
                colors(stages_with_wet(shelf, wood, finish, geometry, solver, static_cast<int>(s), 1 + wet_film_spread), lights));
    sum.finish();
    return out;
}

}  // namespace foretone::appearance
