#include "split.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "core/base/power.h"

namespace tallyblock {
namespace {

// Area of |x|^n + |y|^n <= 1 over its box: gamma(1 + 1/n)^2 / gamma(1 + 2/n).
double fill_of_exponent(double n) {
  return std::exp(2.0 * std::lgamma(1.0 + 1.0 / n) - std::lgamma(1.0 + 2.0 / n));
}

double exponent_of_fill(double fill) {
  double low = 1.0;
  double high = 1000.0;
  for (int i = 0; i < 100; ++i) {
    const double middle = std::sqrt(low * high);
    (fill_of_exponent(middle) < fill ? low : high) = middle;
  }
  return std::sqrt(low * high);
}

// Continued fraction of the incomplete beta function (DLMF 8.17.22), modified Lentz evaluation.
double beta_fraction(double x, double a, double b) {
  constexpr double tiny = 1e-300;
  const auto guarded = [](double v) { return std::abs(v) < tiny ? tiny : v; };
  double c = 1.0;
  double d = 1.0 / guarded(1.0 - (a + b) * x / (a + 1.0));
  double result = d;
  for (int m = 1; m < 500; ++m) {
    const double k = m;
    const double even = k * (b - k) * x / ((a + 2.0 * k - 1.0) * (a + 2.0 * k));
    d = 1.0 / guarded(1.0 + even * d);
    c = guarded(1.0 + even / c);
    result *= d * c;
    const double odd = -(a + k) * (a + b + k) * x / ((a + 2.0 * k) * (a + 2.0 * k + 1.0));
    d = 1.0 / guarded(1.0 + odd * d);
    c = guarded(1.0 + odd / c);
    result *= d * c;
    if (std::abs(d * c - 1.0) < 1e-15) break;
  }
  return result;
}

double incomplete_beta(double x, double a, double b) {
  if (x <= 0.0) return 0.0;
  if (x >= 1.0) return 1.0;
  const double front = std::exp(std::lgamma(a + b) - std::lgamma(a) - std::lgamma(b) +
                                a * std::log(x) + b * std::log1p(-x));
  if (x < (a + 1.0) / (a + b + 2.0)) return front * beta_fraction(x, a, b) / a;
  return 1.0 - front * beta_fraction(1.0 - x, b, a) / b;
}

// Share of the face left of the fraction p of its width.
double area_share(double p, double n) {
  const double u = std::abs(2.0 * p - 1.0);
  const double half = incomplete_beta(power_of(u, n), 1.0 / n, 1.0 + 1.0 / n) / 2.0;
  return p < 0.5 ? 0.5 - half : 0.5 + half;
}

}  // namespace

double superellipse_exponent(double fill) {
  return fill > 0.9995 ? 0.0 : exponent_of_fill(std::clamp(fill, 0.5, 1.0));
}

std::vector<double> split_fractions(double fill, int k) {
  std::vector<double> fractions;
  const double n = superellipse_exponent(fill);
  const bool box = n == 0.0;
  for (int i = 1; i < k; ++i) {
    const double share = static_cast<double>(i) / k;
    double low = 0.0;
    double high = 1.0;
    for (int step = 0; !box && step < 60; ++step) {
      const double middle = (low + high) / 2.0;
      (area_share(middle, n) < share ? low : high) = middle;
    }
    fractions.push_back(box ? share : (low + high) / 2.0);
  }
  return fractions;
}

double narrowest_fraction(double fill, int k) {
  double narrowest = 1.0;
  double before = 0.0;
  std::vector<double> edges = split_fractions(fill, k);
  edges.push_back(1.0);
  for (const double edge : edges) {
    narrowest = std::min(narrowest, edge - before);
    before = edge;
  }
  return narrowest;
}

}  // namespace tallyblock
