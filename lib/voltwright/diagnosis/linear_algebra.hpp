#pragma once

#include <cstddef>
#include <memory>
#include <span>
#include <vector>

/// Dense matrices of plain numbers, and the few things that an estimator does with them. The source alone knows the library
/// behind it, which is slow to compile.
namespace voltwright {

using Vector = std::vector<double>;

/// By columns.
class Matrix {
public:
    Matrix() = default;
    Matrix(std::size_t rows, std::size_t columns) : rows_(rows), columns_(columns), numbers_(rows * columns) {}

    [[nodiscard]] std::size_t rows() const { return rows_; }
    [[nodiscard]] std::size_t columns() const { return columns_; }
    [[nodiscard]] bool empty() const { return numbers_.empty(); }
    double& operator()(std::size_t row, std::size_t column) { return numbers_[column * rows_ + row]; }
    double operator()(std::size_t row, std::size_t column) const { return numbers_[column * rows_ + row]; }
    [[nodiscard]] std::span<double> column(std::size_t index) { return {numbers_.data() + index * rows_, rows_}; }
    [[nodiscard]] std::span<const double> column(std::size_t index) const {
        return {numbers_.data() + index * rows_, rows_};
    }
    [[nodiscard]] std::span<const double> numbers() const { return numbers_; }

private:
    std::size_t rows_ = 0, columns_ = 0;
    std::vector<double> numbers_;
};

Matrix identity(std::size_t size);
Matrix transposed(const Matrix& a);
Matrix product(const Matrix& a, const Matrix& b);
Vector product(const Matrix& a, std::span<const double> x);

/// a + k·x, number by number.
Vector sum_of(std::span<const double> a, double k, std::span<const double> x);
/// Σ aᵢ·bᵢ
double dot(std::span<const double> a, std::span<const double> b);
/// Σ aᵢ²
double squared_norm(std::span<const double> a);

/// Solves A·x = b for a symmetric and positive definite A, by its Cholesky factors L·D·Lᵀ.
class PositiveDefinite {
public:
    explicit PositiveDefinite(const Matrix& a);
    ~PositiveDefinite();
    PositiveDefinite(PositiveDefinite&&) noexcept;
    PositiveDefinite& operator=(PositiveDefinite&&) noexcept;
    PositiveDefinite(const PositiveDefinite&) = delete;
    PositiveDefinite& operator=(const PositiveDefinite&) = delete;

    [[nodiscard]] Vector solve(std::span<const double> b) const;
    /// Of each column.
    [[nodiscard]] Matrix solve(const Matrix& b) const;

private:
    struct Factors;
    std::unique_ptr<Factors> factors_;
};

}  // namespace voltwright
