#include "voltwright/diagnosis/linear_algebra.hpp"

#include <Eigen/Cholesky>

#include <algorithm>

namespace voltwright {

namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

// Each kind of expression that is written down takes a second to compile: a few kinds serve them all.

Eigen::Index index_of(std::size_t size) { return static_cast<Eigen::Index>(size); }

VectorXd eigen_vector(std::span<const double> a) { return Eigen::Map<const VectorXd>(a.data(), index_of(a.size())); }

MatrixXd eigen_matrix(const Matrix& a) {
    return Eigen::Map<const MatrixXd>(a.numbers().data(), index_of(a.rows()), index_of(a.columns()));
}

Vector plain(const VectorXd& a) { return {a.data(), a.data() + a.size()}; }

}  // namespace

struct PositiveDefinite::Factors {
    Eigen::LDLT<MatrixXd> ldlt;
};

PositiveDefinite::PositiveDefinite(const Matrix& a)
    : factors_(std::make_unique<Factors>(Factors{Eigen::LDLT<MatrixXd>(eigen_matrix(a))})) {}
PositiveDefinite::~PositiveDefinite() = default;
PositiveDefinite::PositiveDefinite(PositiveDefinite&&) noexcept = default;
PositiveDefinite& PositiveDefinite::operator=(PositiveDefinite&&) noexcept = default;

Vector PositiveDefinite::solve(std::span<const double> b) const {
    const VectorXd x = factors_->ldlt.solve(eigen_vector(b));
    return plain(x);
}

Matrix PositiveDefinite::solve(const Matrix& b) const {
    Matrix columns(b.rows(), b.columns());
    for (std::size_t i = 0; i < b.columns(); ++i) {
        const Vector x = solve(b.column(i));
        std::copy(x.begin(), x.end(), columns.column(i).begin());
    }
    return columns;
}

Matrix identity(std::size_t size) {
    Matrix one(size, size);
    for (std::size_t i = 0; i < size; ++i) one(i, i) = 1.0;
    return one;
}

Matrix transposed(const Matrix& a) {
    Matrix across(a.columns(), a.rows());
    for (std::size_t j = 0; j < a.columns(); ++j) {
        const auto column = a.column(j);
        for (std::size_t i = 0; i < column.size(); ++i) across(j, i) = column[i];
    }
    return across;
}

Matrix product(const Matrix& a, const Matrix& b) {
    const MatrixXd both = eigen_matrix(a) * eigen_matrix(b);
    Matrix answer(a.rows(), b.columns());
    for (std::size_t i = 0; i < answer.columns(); ++i)
        std::copy_n(both.data() + index_of(i * answer.rows()), answer.rows(), answer.column(i).begin());
    return answer;
}

Vector product(const Matrix& a, std::span<const double> x) {
    const VectorXd answer = eigen_matrix(a) * eigen_vector(x);
    return plain(answer);
}

Vector sum_of(std::span<const double> a, double k, std::span<const double> x) {
    Vector sum(a.begin(), a.end());
    for (std::size_t i = 0; i < sum.size(); ++i) sum[i] += k * x[i];
    return sum;
}

double dot(std::span<const double> a, std::span<const double> b) { return eigen_vector(a).dot(eigen_vector(b)); }

double squared_norm(std::span<const double> a) { return eigen_vector(a).squaredNorm(); }

}  // namespace voltwright
