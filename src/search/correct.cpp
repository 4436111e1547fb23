// Each change has one number to choose. The finished color is a smooth function of it, and the ΔE00 of the worst light
// falls towards its best place and rises again; a scan of the range finds the valley, a search by golden sections
// closes in. What is judged is the rounded recipe that would be mixed.

#include "foretone/search/correct.hpp"

#include <algorithm>
#include <cmath>

#include "change_kinds.hpp"
#include "foretone/schedule/deposit.hpp"
#include "foretone/schedule/mixture.hpp"

namespace foretone::search {
namespace {
using Kind = Change::Kind;

constexpr double worth = 0.3;  // ΔE00 that a change must bring

double worst(const std::vector<double>& v) { return *std::max_element(v.begin(), v.end()); }

class Seeker {
public:
    explicit Seeker(const ChangeQuestion& q) : q_(q), materials_(q.setting.materials) {
        nothing_ = worst(look(q.finish));
    }

    std::vector<double> look(const schedule::Finish& finish) const {
        return differences(q_.aim, finished(q_.setting, q_.laid ? q_.laid(finish) : finish));
    }

    std::vector<Change> all() {
        for (std::size_t s = 0; s < q_.finish.steps.size(); ++s) {
            strengths(s);
            coats(s);
            cuts(s);
            films(s);
            touches(s);
        }
        sheens();
        std::stable_sort(found_.begin(), found_.end(), [](const Change& a, const Change& b) {
            return a.worst_de00 + burden(a.kind) < b.worst_de00 + burden(b.kind);
        });
        return std::move(found_);
    }

private:
    const schedule::Step& step(std::size_t s) const { return q_.finish.steps[s]; }

    schedule::Finish with(std::size_t s, schedule::Step step) const {
        schedule::Finish out = q_.finish;
        out.steps[s] = std::move(step);
        return out;
    }

    void keep(Kind kind, std::size_t s, const std::string& material, double amount, schedule::Finish finish,
              bool on_board = false) {
        Change c{kind, s, material, amount, std::move(finish), {}, 0, on_board};
        try {
            c.de00 = look(c.finish);
        } catch (const schedule::Fault&) {
            return;  // a change that cannot be laid is none
        }
        c.worst_de00 = worst(c.de00);
        if (c.worst_de00 <= nothing_ - worth) found_.push_back(std::move(c));
    }

    // The best place of `make` (log scale) between low and high.
    template <class Make>
    std::optional<double> best(double low, double high, Make&& make) const {
        const auto at = [&](double x) {
            const std::optional<schedule::Finish> f = make(std::exp(x));
            if (!f) return 1e9;
            try {
                return worst(look(*f));
            } catch (const schedule::Fault&) {
                return 1e9;
            }
        };
        constexpr int places = 11;
        double a = std::log(low), b = std::log(high), best_x = a, best_y = 1e9;
        const double apart = (b - a) / (places - 1);
        for (int i = 0; i < places; ++i) {
            const double x = a + apart * i, y = at(x);
            if (y < best_y) best_x = x, best_y = y;
        }
        a = std::max(a, best_x - apart), b = std::min(b, best_x + apart);
        for (int round = 0; round < 9; ++round) {
            const double x1 = a + (b - a) * 0.382, x2 = a + (b - a) * 0.618;
            const double y1 = at(x1), y2 = at(x2);
            if (y1 < best_y) best_x = x1, best_y = y1;
            if (y2 < best_y) best_x = x2, best_y = y2;
            if (y1 < y2)
                b = x2;
            else
                a = x1;
        }
        if (best_y >= 1e8) return std::nullopt;
        return std::exp(best_x);
    }

    void strengths(std::size_t s) {
        if (!has_colorant(step(s), materials_)) return;
        const auto make = [&](double f) -> std::optional<schedule::Finish> {
            const auto changed = at_strength(step(s), materials_, f);
            if (!changed) return std::nullopt;
            return with(s, *changed);
        };
        if (const auto f = best(0.25, 4, make)) {
            const double round = std::round(*f * 100) / 100;
            if (auto finish = make(round)) keep(Kind::strength, s, colorant(s), round, std::move(*finish));
        }
    }

    std::string colorant(std::size_t s) const {
        for (const auto& p : step(s).mix)
            if (is_colorant(p.use, materials_)) return p.use;
        return step(s).mix.front().use;
    }

    void coats(std::size_t s) {
        if (!has_binder(step(s), materials_)) return;
        const bool last = s + 1 == q_.finish.steps.size();
        for (const int more : {1, -1}) {
            schedule::Step changed = step(s);
            changed.coats += more;
            if (changed.coats == 0 && last) continue;
            schedule::Finish finish = with(s, changed);
            if (changed.coats == 0) finish.steps.erase(finish.steps.begin() + static_cast<std::ptrdiff_t>(s));
            keep(Kind::coats, s, step(s).mix.front().use, changed.coats, std::move(finish), more > 0 && last);
        }
    }

    void cuts(std::size_t s) {
        if (!takes_cut(step(s), materials_)) return;
        for (int quarter = 2; quarter <= 12; ++quarter) {
            schedule::Step changed = step(s);
            changed.cut_lb = quarter * 0.25;
            if (changed.ready_cut_lb && *changed.cut_lb > *changed.ready_cut_lb) continue;
            if (step(s).cut_lb && std::abs(*step(s).cut_lb - *changed.cut_lb) < 0.01) continue;
            keep(Kind::cut, s, step(s).mix.front().use, *changed.cut_lb, with(s, changed));
        }
        // The best cut alone.
        const auto of_step = [&](const Change& c) { return c.kind == Kind::cut && c.step == s; };
        const Change* top = nullptr;
        for (const auto& c : found_)
            if (of_step(c) && (!top || c.worst_de00 < top->worst_de00)) top = &c;
        if (!top) return;
        const Change kept = *top;
        found_.erase(std::remove_if(found_.begin(), found_.end(), of_step), found_.end());
        found_.push_back(kept);
    }

    void films(std::size_t s) {
        if (!has_binder(step(s), materials_) || wiped_oil(step(s), materials_)) return;
        const auto& written = q_.written ? *q_.written : materials_;
        const auto make = [&](double f) -> std::optional<schedule::Finish> {
            return with(s, at_film(step(s), written, f));
        };
        if (const auto f = best(0.6, 1.6, make)) {
            auto finish = make(*f);
            const double now = *finish->steps[s].wet_um / schedule::deposit(step(s), written).wet_um;
            keep(Kind::film, s, step(s).mix.front().use, now, std::move(*finish));
        }
    }

    void touches(std::size_t s) {
        if (!has_colorant(step(s), materials_) || has_binder(step(s), materials_)) return;
        const std::string carrier = schedule::mix(step(s), materials_).carrier;
        for (const auto& id : q_.touches) {
            if (std::any_of(step(s).mix.begin(), step(s).mix.end(), [&](const auto& p) { return p.use == id; }))
                continue;
            const auto& data = materials_.at(id).data;
            const auto* stock = std::get_if<material::Stock>(&data);
            const auto* dye = std::get_if<material::Dye>(&data);
            if (stock && stock->carrier != carrier) continue;
            if (dye && std::find(dye->carriers.begin(), dye->carriers.end(), carrier) == dye->carriers.end()) continue;
            if (!stock && !dye) continue;
            const auto make = [&](double amount) -> std::optional<schedule::Finish> {
                const auto changed = with_touch(step(s), materials_, id, amount);
                if (!changed) return std::nullopt;
                return with(s, *changed);
            };
            const auto amount = stock ? best(0.001, 0.25, make) : best(0.02, 5, make);
            if (!amount) continue;
            if (auto finish = make(*amount)) keep(Kind::touch, s, id, *amount, std::move(*finish));
        }
    }

    void sheens() {
        if (q_.finish.steps.empty() || q_.setting.geometry == optics::Geometry::d8_included) return;
        const std::size_t s = q_.finish.steps.size() - 1;
        if (!has_binder(step(s), materials_) || wiped_oil(step(s), materials_)) return;
        const auto& light = q_.aim.lights.front();
        const auto now =
            color::to_lab(color::xyz(finished(q_.setting, q_.laid ? q_.laid(q_.finish) : q_.finish), light.weights),
                          light.weights.white);
        if (std::abs(now.l - light.lab.l) < 0.8 * color::delta_e_ab(now, light.lab)) return;
        const double usual = schedule::deposit(step(s), materials_).sheen_gu60;
        const auto make = [&](double gu) -> std::optional<schedule::Finish> {
            schedule::Step changed = step(s);
            changed.sheen_gu60 = std::round(gu);
            return with(s, changed);
        };
        if (const auto gu = best(std::max(5.0, usual - 20), std::min(95.0, usual + 20), make))
            keep(Kind::sheen, s, step(s).mix.front().use, std::round(*gu), *make(*gu), *gu < usual);
    }

    const ChangeQuestion& q_;
    const material::Materials& materials_;
    double nothing_ = 0;
    std::vector<Change> found_;
};

}  // namespace

double burden(Kind kind) {
    switch (kind) {
        case Kind::strength:
            return 0;
        case Kind::coats:
            return 0.05;
        case Kind::cut:
            return 0.1;
        case Kind::film:
            return 0.15;
        case Kind::sheen:
            return 0.2;
        case Kind::touch:
            return 0.3;
    }
    return 0;
}

std::vector<double> unchanged(const ChangeQuestion& question) { return Seeker(question).look(question.finish); }

std::vector<Change> changes(const ChangeQuestion& question) { return Seeker(question).all(); }

}  // namespace foretone::search
