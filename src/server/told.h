// What pages were told of a garden not long ago, so that they need be told only what is other now.
// For the server room alone.
#pragma once

#include <cstdint>
#include <deque>
#include <memory>
#include <mutex>
#include <string>
#include <utility>

#include "server/sheet_pieces.h"
#include "server/things_told.h"

namespace spadework::server {

/// The latest of one kind of answer, each with what was asked and the garden's change it is of. Any
/// number of threads may ask at once.
template <class T>
class Latest {
 public:
  explicit Latest(std::size_t most) : most_(most) {}

  void keep(std::string asked, std::int64_t change, std::shared_ptr<const T> told) {
    const std::scoped_lock lock(mutex_);
    std::erase_if(kept_,
                  [&](const Kept& one) { return one.asked == asked && one.change == change; });
    kept_.push_front({std::move(asked), change, std::move(told)});
    if (kept_.size() > most_) kept_.pop_back();
  }
  /// Nothing if it is not known any more.
  [[nodiscard]] std::shared_ptr<const T> find(const std::string& asked, std::int64_t change) const {
    const std::scoped_lock lock(mutex_);
    for (const Kept& one : kept_)
      if (one.change == change && one.asked == asked) return one.told;
    return nullptr;
  }
  /// Of whatever change.
  [[nodiscard]] std::shared_ptr<const T> newest(const std::string& asked) const {
    const std::scoped_lock lock(mutex_);
    for (const Kept& one : kept_)
      if (one.asked == asked) return one.told;
    return nullptr;
  }

 private:
  struct Kept {
    std::string asked;
    std::int64_t change;
    std::shared_ptr<const T> told;
  };
  const std::size_t most_;
  mutable std::mutex mutex_;
  std::deque<Kept> kept_;
};

struct Told {
  Latest<SheetPieces> sheets{6};  // a large one is a megabyte
  Latest<ThingsTold> things{12};
};

}  // namespace spadework::server
