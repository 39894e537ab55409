// What was computed, each result under a key that stands for all it depends on. For the study room
// alone.
#pragma once

#include <condition_variable>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <string>

#include "base/result.h"

namespace spadework::study {

template <class T>
using Shared = std::shared_ptr<const T>;

/// Any number of threads may ask at once: what one of them computes the others wait for.
class Results {
 public:
  /// The result kept under the key, or what `compute` makes of it; errors are not kept. The key's
  /// first word is the kind of result: of each kind the latest are kept.
  template <class T>
  [[nodiscard]] Result<Shared<T>> once(const std::string& key,
                                       const std::function<Result<T>()>& compute) {
    if (const Shared<void> kept = kept_or_begun(key))
      return std::static_pointer_cast<const T>(kept);
    Begun begun(*this, key);
    Result<T> made = compute();
    if (!made) return tl::unexpected<Error>(made.error());
    auto shared = std::make_shared<const T>(std::move(*made));
    begun.keep(shared);
    return shared;
  }

  /// A number that no other asker has.
  [[nodiscard]] long next_number();
  /// How many results have been computed: for tests.
  [[nodiscard]] int computed() const;

 private:
  struct Kept {
    Shared<void> result;  // nothing: it is being computed
    long asked = 0;       // when it was asked for last
  };
  /// A result under way: when it ends without one, whoever waits computes it.
  class Begun {
   public:
    Begun(Results& results, std::string key) : results_(results), key_(std::move(key)) {}
    ~Begun();
    Begun(const Begun&) = delete;
    Begun& operator=(const Begun&) = delete;
    void keep(Shared<void> result) { result_ = std::move(result); }

   private:
    Results& results_;
    std::string key_;
    Shared<void> result_;
  };

  /// Nothing: the asker has to compute it.
  [[nodiscard]] Shared<void> kept_or_begun(const std::string& key);
  void forget_the_oldest(const std::string& kind);

  mutable std::mutex mutex_;
  std::condition_variable ended_;
  std::map<std::string, Kept> kept_;
  long asked_ = 0, numbers_ = 0;
  int computed_ = 0;
};

}  // namespace spadework::study
