// Both solvers against the published and computed tables.

#include <algorithm>
#include <cmath>
#include <limits>

#include "foretone/optics/angular.hpp"
#include "foretone/optics/two_flux.hpp"
#include "foretone/job/verdict.hpp"
#include "table_rows.hpp"

namespace foretone::job {
namespace {
using optics::Base;
using optics::Geometry;
using optics::Layer;
using optics::Light;
using optics::Stack;

double at(const Row& row, const std::string& column) { return number(row, column); }

Layer film(double n, double depth) { return {n, 1, {depth}, {}, 0}; }

// A layer of albedo a and optical depth b.
Layer turbid(double n, double a, double b, double g) {
    const double extinction = std::isinf(b) ? 1 : b;
    return {n, std::isinf(b) ? b : 1, {(1 - a) * extinction}, {a * extinction}, g};
}

Stack stack(std::vector<Layer> layers, Base::Kind kind, double reflectance = 0) {
    Stack s{1, std::move(layers), {kind, {}}};
    if (kind == Base::Kind::lambertian) s.base.reflectance = {reflectance};
    return s;
}

// Both solvers behind one call.
struct Solver {
    std::string name;
    std::function<optics::Fluxes(const Stack&, const Light&)> fluxes;
    std::function<optics::Fluxes(const Stack&, const Light&)> averaged;  // polarisation averaged at each interface
    std::function<optics::Radiance(const Stack&, Geometry)> radiance;
};

class Errors {
public:
    Errors(std::string table, std::string source, std::string quantity, std::string solver)
        : out_{std::move(table), std::move(source), std::move(quantity), std::move(solver), 0, 0, 0, ""} {}
    void add(double found, double expected, const std::string& row) {
        if (std::isnan(expected)) return;
        const double e = std::abs(found - expected);
        if (all_.empty() || e > out_.worst) {
            out_.worst = e;
            out_.worst_row = row;
        }
        all_.push_back(e);
    }
    TableError close() {
        out_.rows = all_.size();
        std::sort(all_.begin(), all_.end());
        if (!all_.empty()) out_.median = all_[all_.size() / 2];
        return out_;
    }

private:
    TableError out_;
    std::vector<double> all_;
};

const char* const computed = "computed to convergence (discrete ordinates)";

void interfaces(const Solver& solver, std::vector<TableError>& out) {
    Errors e("fresnel_diffuse", "Walsh's closed form, Ryde 1931", "diffuse light on a bare interface", solver.name);
    for (const auto& row : table_rows("fresnel_diffuse"))
        e.add(solver.fluxes(stack({film(at(row, "n"), 0)}, Base::Kind::black), {true, 0}).reflectance[0],
              at(row, "r_ext_diffuse_Walsh"), "n " + row.at("n"));
    out.push_back(e.close());
}

void clear_films(const Solver& solver, std::vector<TableError>& out) {
    const std::string table = "clear_film_over_lambertian", source = "Williams & Clapper 1953, computed";
    Errors eye(table, source, "radiance factor 45/0", solver.name),
        sphere(table, source, "radiance factor d/0, specular excluded", solver.name);
    Errors normal(table, source, "hemispherical, normal light", solver.name),
        diffuse(table, source, "hemispherical, diffuse light", solver.name);
    for (const auto& row : table_rows(table)) {
        const auto s =
            stack({film(at(row, "n"), -std::log(at(row, "t_normal")))}, Base::Kind::lambertian, at(row, "rho_base"));
        const std::string name = "n " + row.at("n") + ", t " + row.at("t_normal") + ", base " + row.at("rho_base");
        eye.add(solver.radiance(s, Geometry::g45_0).body[0], at(row, "radiance_factor_45_0"), name);
        const auto at_normal = solver.fluxes(s, {false, 0});
        normal.add(at_normal.reflectance[0], at(row, "R_0d_incl_spec"), name);
        sphere.add(at_normal.reflectance[0] - at_normal.surface[0], at(row, "radiance_factor_d_0_excl"),
                   name);  // by reciprocity
        diffuse.add(solver.fluxes(s, {true, 0}).reflectance[0], at(row, "R_dd_incl"), name);
    }
    for (auto* e : {&eye, &sphere, &normal, &diffuse}) out.push_back(e->close());
}

void wet(const Solver& solver, std::vector<TableError>& out) {
    Errors e("wet_look_lekner_dorf", "clear-film columns, computed", "wet albedo under a liquid film, 0/d",
             solver.name);
    for (const auto& row : table_rows("wet_look_lekner_dorf"))
        e.add(solver
                  .fluxes(stack({film(at(row, "n_liquid"), 0)}, Base::Kind::lambertian, at(row, "albedo_dry")),
                          {false, 0})
                  .reflectance[0],
              at(row, "clearcoat_Lambertian_Saunderson_0d_SCI"),
              "n " + row.at("n_liquid") + ", albedo " + row.at("albedo_dry"));
    out.push_back(e.close());
}

// Some of this table's rows lie between glass slides and were computed with both polarisations averaged at each
// interface; the angular solver, which keeps them apart, is asked to do the same here.
void slabs(const Solver& solver, std::vector<TableError>& out) {
    const std::string table = "transport_slabs_published",
                      source =
                          "van de Hulst 1980, Giovanelli 1955, Prahl, DISORT; converged values, polarisation averaged";
    Errors r(table, source, "reflectance, collimated", solver.name),
        t(table, source, "transmittance, collimated", solver.name);
    Errors rd(table, source, "reflectance, diffuse", solver.name),
        td(table, source, "transmittance, diffuse", solver.name);
    for (const auto& row : table_rows(table)) {
        std::vector<Layer> layers;
        const double top = at(row, "n_top_slide"), bottom = at(row, "n_bottom_slide"), b = at(row, "b");
        if (top != 1) layers.push_back(film(top, 0));
        layers.push_back(turbid(at(row, "n_slab"), at(row, "a"), b, at(row, "g")));
        if (bottom != 1 && !std::isinf(b)) layers.push_back(film(bottom, 0));
        const auto s = stack(layers, std::isinf(b) ? Base::Kind::black : Base::Kind::open);
        const auto beam = solver.averaged(s, {false, std::acos(at(row, "mu0")) * 180 / 3.14159265358979323846});
        const auto sky = solver.averaged(s, {true, 0});
        r.add(beam.reflectance[0], at(row, "conv_R_mu0"), row.at("id"));
        rd.add(sky.reflectance[0], at(row, "conv_URU"), row.at("id"));
        if (std::isinf(b)) continue;
        t.add(beam.transmittance[0], at(row, "conv_T_mu0"), row.at("id"));
        td.add(sky.transmittance[0], at(row, "conv_UTU"), row.at("id"));
    }
    for (auto* e : {&r, &t, &rd, &td}) out.push_back(e->close());
}

void layers_over_base(const Solver& solver, std::vector<TableError>& out) {
    const std::string table = "transport_layer_over_lambertian";
    Errors normal(table, computed, "reflectance, normal light", solver.name),
        diffuse(table, computed, "reflectance, diffuse light", solver.name);
    for (const auto& row : table_rows(table)) {
        const auto a = table_cells(row.at("a"), '|'), b = table_cells(row.at("b"), '|'),
                   g = table_cells(row.at("g"), '|');
        std::vector<Layer> layers;
        for (std::size_t i = 0; i < a.size(); ++i)
            layers.push_back(turbid(at(row, "n"), table_number(a[i]), table_number(b[i]), table_number(g[i])));
        const auto s = stack(layers, Base::Kind::lambertian, at(row, "rho_substrate"));
        normal.add(solver.fluxes(s, {false, 0}).reflectance[0], at(row, "UR1_normal_incl_spec"), row.at("id"));
        diffuse.add(solver.fluxes(s, {true, 0}).reflectance[0], at(row, "URU_diffuse_incl"), row.at("id"));
    }
    for (auto* e : {&normal, &diffuse}) out.push_back(e->close());
}

}  // namespace

std::vector<TableError> check_tables(int streams) {
    const optics::AngularOptions options{streams, false}, averaged{streams, true};
    const auto fast = [](const Stack& s, const Light& l) { return optics::two_flux(s, l); };
    const Solver solvers[] = {
        {"two-flux", fast, fast, [](const Stack& s, Geometry g) { return optics::two_flux(s, g); }},
        {"angular", [options](const Stack& s, const Light& l) { return optics::angular(s, l, options); },
         [averaged](const Stack& s, const Light& l) { return optics::angular(s, l, averaged); },
         [options](const Stack& s, Geometry g) { return optics::angular(s, g, options); }}};
    std::vector<TableError> out;
    for (const auto& run : {interfaces, clear_films, wet, slabs, layers_over_base})
        for (const auto& solver : solvers) run(solver, out);
    return out;
}

}  // namespace foretone::job
