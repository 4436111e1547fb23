#include "angular_stacks.hpp"

#include <cmath>
#include <sstream>
#include <string>

namespace foretone::test {

using optics::Base;
using optics::Layer;
using optics::Stack;

Layer layer(double n, double a, double b, double g) {
    Layer l;
    l.n = n;
    l.thickness_mm = std::isinf(b) ? b : 1;
    const double extinction = std::isinf(b) ? 1 : b;
    l.absorption_per_mm = {(1 - a) * extinction};
    l.scattering_per_mm = {a * extinction};
    l.anisotropy = g;
    return l;
}

Layer clear_film(double n, double depth) {
    Layer l;
    l.n = n;
    l.thickness_mm = 1;
    l.absorption_per_mm = {depth};
    return l;
}

Stack over_lambertian(std::vector<Layer> layers, double reflectance) {
    Stack s;
    s.wavelengths = 1;
    s.layers = std::move(layers);
    s.base.reflectance = {reflectance};
    return s;
}

Stack over_air(std::vector<Layer> layers) {
    Stack s = over_lambertian(std::move(layers), 0);
    s.base.reflectance.clear();
    s.base.kind = Base::Kind::open;
    return s;
}

Stack over_black(std::vector<Layer> layers) {
    Stack s = over_air(std::move(layers));
    s.base.kind = Base::Kind::black;
    return s;
}

Stack slab(const Row& row) {
    std::vector<Layer> layers;
    const double top = row.number("n_top_slide"), bottom = row.number("n_bottom_slide"), b = row.number("b");
    if (top != 1) layers.push_back(clear_film(top, 0));
    layers.push_back(layer(row.number("n_slab"), row.number("a"), b, row.number("g")));
    if (std::isinf(b)) return over_black(layers);
    if (bottom != 1) layers.push_back(clear_film(bottom, 0));
    return over_air(layers);
}

Stack layers_over_lambertian(const Row& row) {
    std::stringstream a(row.text("a")), b(row.text("b")), g(row.text("g"));
    std::vector<Layer> layers;
    for (std::string a1, b1, g1; std::getline(a, a1, '|') && std::getline(b, b1, '|') && std::getline(g, g1, '|');) {
        layers.push_back(layer(row.number("n"), std::stod(a1), std::stod(b1), std::stod(g1)));
    }
    return over_lambertian(layers, row.number("rho_substrate"));
}

double Dice::log_between(double low, double high) { return std::exp(between(std::log(low), std::log(high))); }

Stack random_stack(Dice& dice, Absorbs absorbs) {
    std::vector<Layer> layers;
    const int count = 1 + dice.below(5);
    for (int i = 0; i < count; ++i) {
        double n = dice.between(1, 2);
        const int choice = dice.below(6);
        if (i > 0 && choice < 2) n = layers.back().n;
        if (i > 0 && choice == 2) n = layers.back().n + 1e-3;
        if (choice == 3) n = 1;
        const int kind = dice.below(4);
        double a = kind == 0 ? 0 : kind == 1 ? 1 : dice.unit();
        const double b = dice.log_between(1e-6, 1e4);
        if (absorbs == Absorbs::nothing) a = 1;
        layers.push_back(layer(n, a, b, dice.between(-0.9, 0.95)));
        if (absorbs == Absorbs::nothing && kind == 0) layers.back() = clear_film(n, 0);
    }
    return over_air(layers);
}

}  // namespace foretone::test
