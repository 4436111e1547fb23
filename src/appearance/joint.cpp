// Covariance of a part of the figures. With C = F Fᵀ, leaving figures out leaves the sub-block of C. Cholesky's factor
// of it, column by column,
//   F_ij = (C_ij − Σ_{k<j} F_ik F_jk)/F_jj,   F_ii = √(C_ii − Σ_{k<i} F_ik²),
// needs no inverse. A figure without any spread beyond those before it has F_ii = 0, and its column is none.

#include "foretone/appearance/joint.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "foretone/base/checksum.hpp"
#include "foretone/base/number.hpp"
#include "foretone/material/figures.hpp"
#include "foretone/schedule/suction.hpp"

namespace foretone::appearance {
namespace {
using Rows = std::vector<std::vector<double>>;

double dot(const std::vector<double>& a, const std::vector<double>& b) {
    double sum = 0;
    for (std::size_t k = 0; k < std::min(a.size(), b.size()); ++k) sum += a[k] * b[k];
    return sum;
}

// What the materials hold now; nothing if there is no such figure.
std::optional<double> now(const JointFigure& f, const material::Materials& materials) {
    if (f.material == uptake_rows) {
        for (const auto& figure : schedule::uptake_figures())
            if (figure.name == f.figure) return schedule::UptakeLaw{}.*figure.at;
        return std::nullopt;
    }
    return reading_of(materials.at(f.material), f.figure);
}

class Hash {
public:
    void add(std::string_view text) { state_ = base::fnv1a("\xff", base::fnv1a(text, state_)); }
    void add_number(double v) { add(base::significant(v, 6)); }
    std::string text() const {
        std::string out;
        for (int shift = 60; shift >= 0; shift -= 4) out += "0123456789abcdef"[(state_ >> shift) & 15];
        return out;
    }

private:
    std::uint64_t state_ = base::fnv1a("");
};

}  // namespace

std::string JointFigure::name() const {
    return material + "/" + figure + (shape_number > 0 ? "/" + std::to_string(shape_number) : "");
}

std::string_view word(JointFigure::Acts acts) {
    constexpr std::array<std::string_view, 3> words = {"value", "logarithm", "body"};
    return words[static_cast<std::size_t>(acts)];
}

double JointTable::sd(std::size_t figure) const { return std::sqrt(dot(factor[figure], factor[figure])); }

double reading_of(const material::Figure& figure) { return figure.value; }

double reading_of(const material::SpectrumFigure& figure) {
    double sum = 0, weights = 0;
    for (std::size_t i = 0; i < spectral::grid_size; ++i) {
        const auto w = static_cast<double>(i + 1);
        sum += w * figure.values[i];
        weights += w;
    }
    return sum / weights;
}

std::optional<double> reading_of(material::Material material, std::string_view figure) {
    if (const double* load = material::load_at(material, figure)) return *load;
    for (const auto& at : material::figures(material))
        if (at.key == figure) return at.figure ? reading_of(*at.figure) : reading_of(*at.spectrum);
    return std::nullopt;
}

std::vector<std::vector<double>> factor_of(const std::vector<std::vector<double>>& covariance) {
    Rows out;
    for (std::size_t i = 0; i < covariance.size(); ++i) {
        out.emplace_back(i + 1, 0.0);
        for (std::size_t j = 0; j <= i; ++j) {
            double left = covariance[i][j];
            for (std::size_t k = 0; k < j; ++k) left -= out[i][k] * out[j][k];
            if (j == i)
                out[i][i] = left > 1e-12 * covariance[i][i] ? std::sqrt(left) : 0;
            else
                out[i][j] = out[j][j] > 0 ? left / out[j][j] : 0;
        }
    }
    return out;
}

JointTable rows_of_table(const JointTable& table, const std::vector<std::size_t>& rows) {
    JointTable out{table.title, {}, {}, table.another_board_de};
    Rows covariance;
    for (const std::size_t i : rows) {
        out.figures.push_back(table.figures[i]);
        covariance.emplace_back();
        for (const std::size_t j : rows) covariance.back().push_back(dot(table.factor[i], table.factor[j]));
    }
    out.factor = rows.size() < table.figures.size() ? factor_of(covariance) : table.factor;
    return out;
}

std::vector<std::string> drop_edited(JointTable& table, const material::Materials& materials) {
    std::vector<std::string> edited;
    std::vector<std::size_t> left;
    for (std::size_t i = 0; i < table.figures.size(); ++i) {
        const auto& f = table.figures[i];
        if (!materials.count(f.material) && f.material != uptake_rows) continue;
        const auto reads = now(f, materials);
        if (reads && std::abs(*reads - f.value) <= 1e-5 * std::abs(f.value))
            left.push_back(i);
        else
            edited.push_back(f.name());
    }
    table = rows_of_table(table, left);
    return edited;
}

std::string checksum(const JointTable& table) {
    Hash hash;
    for (std::size_t i = 0; i < table.figures.size(); ++i) {
        const auto& f = table.figures[i];
        hash.add(f.name());
        hash.add(word(f.acts));
        hash.add_number(f.value);
        if (f.shape_number > 0)
            for (const double v : f.shape) hash.add_number(v);
        for (const double v : table.factor[i]) hash.add_number(v);
    }
    for (const auto& [wood, de] : table.another_board_de) {
        hash.add(wood);
        hash.add_number(de);
    }
    return hash.text();
}

}  // namespace foretone::appearance
