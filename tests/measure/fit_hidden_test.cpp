#include <catch2/catch.hpp>
#include <chrono>
#include <cstdio>

#include "foretone/material/optics_of.hpp"
#include "measure/hidden.hpp"

using namespace foretone;
using namespace foretone::test;

TEST_CASE("scratch") {
    for (bool spectra : {false, true}) {
        int in_a = 0, in_s = 0, in_b=0, in_t=0, n = 0, no = 0;
        std::vector<double> next, ea, es, et;
        const auto t0 = std::chrono::steady_clock::now();
        for (std::uint64_t seed = 0; seed < 200; ++seed) {
            HiddenCase c(seed, spectra);
            try {
                const measure::Fit fit(c.question);
                ++n;
                const auto& result = fit.result();
                const auto alpha = material::absorption_per_mm(std::get<material::Binder>(c.shelf.at("orange-shellac").data))[14];
                const double wet = std::get<material::Binder>(c.shelf.at("orange-shellac").data).wet_um[2]->value;
                const double dry = wet * material::cut_solids_volume(1.5, std::get<material::Binder>(c.shelf.at("orange-shellac").data).resin_density_g_per_ml->value);
                double s_true = 0, s_lib = 0;
                for (const auto* sh : {&c.shelf, &c.question.shelf}) {
                    double sum = 0;
                    const auto& stock = std::get<material::Stock>(sh->at("honey-dye").data);
                    for (const auto& load : stock.mix) {
                        const auto a = material::mass_absorptivity_m2_per_g(std::get<material::Dye>(sh->at(load.use).data));
                        for (std::size_t i = 4; i <= 64; ++i) sum += load.g_per_l * stock.strength.value * a[i];
                    }
                    (sh == &c.shelf ? s_true : s_lib) = sum;
                }
                for (const auto& f : result.figures) {
                    if (seed == 0 ) std::printf("  %s %s lib %.3g ± %.2g fit %.3g ± %.2g told %d\n", f.material.c_str(), f.figure.c_str(), f.library, f.library_error, f.value, f.error, f.told);
                    if (f.figure.rfind("absorption at", 0) == 0) { in_a += f.low() <= alpha && alpha <= f.high(); ea.push_back(f.error);}
                    if (f.figure.rfind("dry build", 0) == 0) { in_b += f.low() <= dry && dry <= f.high(); }
                    if (f.figure.rfind("tint", 0) == 0) { in_t += f.low() <= dry*alpha/1000 && dry*alpha/1000 <= f.high(); et.push_back(f.error);}
                    if (f.figure == "strength" ) { const double s = s_true / s_lib; in_s += f.low() <= s && s <= f.high();  es.push_back(f.error); }
                }
                const auto solver = appearance::two_flux_solver();
                auto shelf = c.question.shelf;
                for (auto& [id, m] : result.shelf) shelf[id] = m;
                const auto p = lab_of(search::finished({shelf, c.wood, c.question.geometry, solver}, dyed(3)));
                next.push_back(color::delta_e_00(p, c.next_coat()));
            } catch (const measure::NoFit& e) { ++no; std::printf("%d: %s\n", (int)seed, e.what()); }
        }
        const double s = std::chrono::duration<double>(std::chrono::steady_clock::now() - t0).count();
        std::sort(next.begin(), next.end()); std::sort(ea.begin(), ea.end()); std::sort(es.begin(), es.end()); std::sort(et.begin(), et.end());
        std::printf("spectra %d: n %d no %d alpha in %d build in %d tint in %d strength in %d next median %.2f 90%% %.2f  errs a %.3f s %.3f t %.3f; %.1f s\n", spectra, n, no, in_a, in_b, in_t, in_s, next[next.size()/2], next[next.size()*9/10], ea[ea.size()/2], es[es.size()/2], et[et.size()/2], s);
    }
    CHECK(true);
}
