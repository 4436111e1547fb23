#pragma once
/// The stack as a ladder network of two-ports, added up from the base.

#include <Eigen/Dense>

namespace foretone::optics::angular_detail {

/// Something light passes channel by channel (stream or mode), from t above to b below:
///     d_t = shunt·s_t + transfer·d_b,    s_b = transfer·s_t − series·d_b.
struct TwoPort {
    Eigen::VectorXd shunt;     ///< ≥ 0
    Eigen::VectorXd transfer;  ///< 0–1
    Eigen::VectorXd series;    ///< ≥ 0, finite

    void resize(Eigen::Index channels) {
        shunt.resize(channels);
        transfer.resize(channels);
        series.resize(channels);
    }
};

/// What lies below a level of the stack, seen from it: d = admittance·s (symmetric, non-negative), light let through =
/// through·s.
struct Below {
    Eigen::MatrixXd admittance;
    Eigen::VectorXd through;
};

/// Puts two-ports on top of what lies below; keeps its work space.
class Adder {
public:
    void add(const TwoPort& port, Below& below);

private:
    Eigen::MatrixXd half_, inner_;
    Eigen::VectorXd root_, rest_, through_;
    Eigen::LLT<Eigen::MatrixXd> cholesky_;
};

}  // namespace foretone::optics::angular_detail
