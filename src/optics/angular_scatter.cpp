// Redistribution between streams.
//
// Scattering multiplies the Legendre component of degree l by g^l; even and odd degrees belong to s and d. On a finite
// set of streams the polynomials P_l are no longer orthogonal, and using them as they are breaks energy and the mean
// cosine. Here they are first made orthonormal over this very set (Householder, so any number of them is safe): N
// streams carry exactly N even and N odd ones, with moments g^l, l = 0 … 2N − 1. Normalisation (l = 0) and mean cosine
// (l = 1) are then exact whatever the set, no eigenvalue exceeds 1, and no forward peak has to be cut off and scaled
// away.
//
// Views carry next to no light of their own: their rows come from product integration of the kernel
// (angular_phase.hpp), and what the other rows lose or gain by them, of the order of their flux, is made good on the
// diagonal.

#include "angular_scatter.hpp"

#include <cmath>

#include "angular_phase.hpp"

namespace foretone::optics::angular_detail {
namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Columns root_weight_i P_l(µ_i), l = first, first + 2, …, made orthonormal.
MatrixXd orthonormal_legendre(const VectorXd& cosine, const VectorXd& root_weight, int first, int count) {
    MatrixXd columns(cosine.size(), count);
    for (Eigen::Index i = 0; i < cosine.size(); ++i) {
        double before = 0, p = 1;
        for (int l = 0; l < 2 * count; ++l) {
            if (l % 2 == first) columns(i, l / 2) = root_weight(i) * p;
            const double next = ((2 * l + 1) * cosine(i) * p - l * before) / (l + 1);
            before = p;
            p = next;
        }
    }
    const Eigen::HouseholderQR<MatrixXd> qr(columns);
    return qr.householderQ() * MatrixXd::Identity(cosine.size(), count);
}

/// Σ g^l over the degrees of one parity, between the Gauss streams.
MatrixXd moments(const VectorXd& cosine, const VectorXd& root_weight, int parity, double g) {
    const auto size = static_cast<int>(cosine.size());
    if (g == 0 && parity == 1) return MatrixXd::Zero(size, size);
    const int count = g == 0 ? 1 : size;
    const MatrixXd q = orthonormal_legendre(cosine, root_weight, parity, count);
    VectorXd power(count);
    for (int k = 0; k < count; ++k) power(k) = std::pow(g, 2 * k + parity);
    return q * power.asDiagonal() * q.transpose();
}

/// Rows and columns of the views; `root` is √(dµ weight).
void add_views(const Streams& streams, double n, double g, const VectorXd& cosine, const VectorXd& root,
               Scattering& s) {
    for (int f = 0; f < streams.views; ++f) {
        const ScatterRow row = scatter_row(streams, n, g, cosine(f));
        for (int i = streams.views; i < cosine.size(); ++i) {
            const double on = row.forward[static_cast<std::size_t>(i)],
                         back = row.backward[static_cast<std::size_t>(i)];
            s.even(f, i) = s.even(i, f) = root(f) / root(i) * (on + back);
            s.odd(f, i) = s.odd(i, f) = root(f) / root(i) * (on - back);
        }
        for (int e = 0; e < f; ++e) {
            const double on = mean_phase(cosine(e), cosine(f), g), back = mean_phase(cosine(e), -cosine(f), g);
            s.even(f, e) = s.even(e, f) = 0.5 * root(f) * root(e) * (on + back);
            s.odd(f, e) = s.odd(e, f) = 0.5 * root(f) * root(e) * (on - back);
        }
    }
}

}  // namespace

Scattering make_scattering(const Streams& streams, double n, double g) {
    const int size = streams.in_medium(n), nodes = size - streams.views;
    VectorXd cosine(size), root(size), whole(nodes), taken(nodes);
    Scattering s;
    s.root_flux.resize(size);
    for (int i = 0; i < size; ++i) {
        const Stream& stream = streams.all[static_cast<std::size_t>(i)];
        cosine(i) = streams.cosine(i, n);
        s.root_flux(i) = std::sqrt(stream.flux) / n;
        root(i) = s.root_flux(i) / std::sqrt(cosine(i));
        if (i < streams.views) continue;
        whole(i - streams.views) = std::sqrt(stream.whole / cosine(i)) / n;
        taken(i - streams.views) = std::sqrt(stream.flux / stream.whole);
    }
    s.even.setZero(size, size);
    s.odd.setZero(size, size);
    for (const int parity : {0, 1}) {
        MatrixXd& m = parity == 0 ? s.even : s.odd;
        m.bottomRightCorner(nodes, nodes) =
            taken.asDiagonal() * moments(cosine.tail(nodes), whole, parity, g) * taken.asDiagonal();
    }
    add_views(streams, n, g, cosine, root, s);
    s.even.diagonal() += (root - s.even * root).cwiseQuotient(root);
    s.inverse_cosine = cosine.cwiseInverse();
    const VectorXd scale = s.inverse_cosine.cwiseSqrt();
    s.even = (scale.asDiagonal() * s.even * scale.asDiagonal()).eval();
    s.odd = (scale.asDiagonal() * s.odd * scale.asDiagonal()).eval();
    return s;
}

}  // namespace foretone::optics::angular_detail
