// Kinds that can be looked up by any of their names.
#pragma once

#include <algorithm>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

#include "base/result.h"

namespace spadework::facts {

/// A name as look-ups compare it: lower case, without spaces, `-`, `_`, `'` and `.`.
[[nodiscard]] std::string plain_name(std::string_view name);
/// The plain name as one and as many, likeliest first: "cherries" gives "cherry" and "cherrie",
/// "wire" gives "wires" and "wirees".
[[nodiscard]] std::vector<std::string> other_numbers(const std::string& plain);

/// An id as a person says it: "horse-chestnut" gives "horse chestnut".
[[nodiscard]] std::string spaced(std::string id);

/// A list of T in the order of their ids, found by id or by other name. T has `id` (text) and
/// `also` (list of text).
template <class T>
class Kinds {
 public:
  Kinds() = default;
  /// Errors: kRepeatedId, naming both, when two kinds answer to one name; `file` is where they
  /// stand.
  [[nodiscard]] static Result<Kinds> of(std::vector<T> kinds, const std::string& file) {
    Kinds made;
    made.kinds_ = std::move(kinds);
    std::sort(made.kinds_.begin(), made.kinds_.end(),
              [](const T& a, const T& b) { return a.id < b.id; });
    for (std::size_t i = 0; i < made.kinds_.size(); ++i) {
      const T& kind = made.kinds_[i];
      if (auto error = made.learn(kind.id, i, file); !error.message.empty()) {
        return tl::unexpected<Error>(std::move(error));
      }
      for (const std::string& name : kind.also) {
        if (auto error = made.learn(name, i, file); !error.message.empty()) {
          return tl::unexpected<Error>(std::move(error));
        }
      }
    }
    return made;
  }

  /// By id or other name; capitals, spaces, hyphens, one or many do not matter. Nothing if
  /// unknown.
  [[nodiscard]] const T* find(std::string_view name) const {
    const std::string plain = plain_name(name);
    if (const T* kind = known(plain)) return kind;
    for (const std::string& other : other_numbers(plain)) {
      if (const T* kind = known(other)) return kind;
    }
    return nullptr;
  }
  [[nodiscard]] const std::vector<T>& all() const { return kinds_; }
  /// Every name that `find` knows, ids first: for hints.
  [[nodiscard]] std::vector<std::string> names() const {
    std::vector<std::string> out;
    for (const T& kind : kinds_) out.push_back(kind.id);
    for (const T& kind : kinds_) out.insert(out.end(), kind.also.begin(), kind.also.end());
    return out;
  }

 private:
  [[nodiscard]] const T* known(const std::string& plain) const {
    const auto it = by_name_.find(plain);
    return it == by_name_.end() ? nullptr : &kinds_[it->second];
  }
  Error learn(const std::string& name, std::size_t kind, const std::string& file) {
    const auto [it, fresh] = by_name_.emplace(plain_name(name), kind);
    if (fresh) return {};
    const std::string& other = kinds_[it->second].id;
    const std::string& here = kinds_[kind].id;
    return {ErrorCode::kRepeatedId, file,
            other == here ? "\"" + name + "\" is given twice for " + here
                          : "\"" + name + "\" names both " + other + " and " + here,
            "give each name once, to one of them"};
  }

  std::vector<T> kinds_;
  std::unordered_map<std::string, std::size_t> by_name_;
};

}  // namespace spadework::facts
