#include "study/results.h"

#include <algorithm>

namespace spadework::study {

long Results::next_number() {
  const std::scoped_lock lock(mutex_);
  return ++numbers_;
}

int Results::computed() const {
  const std::scoped_lock lock(mutex_);
  return computed_;
}

Shared<void> Results::kept_or_begun(const std::string& key) {
  std::unique_lock lock(mutex_);
  for (;;) {
    const auto [found, is_new] = kept_.try_emplace(key);
    if (is_new) return nullptr;
    if (found->second.result) {
      found->second.asked = ++asked_;
      return found->second.result;
    }
    ended_.wait(lock);
  }
}

Results::Begun::~Begun() {
  {
    const std::scoped_lock lock(results_.mutex_);
    if (result_) {
      ++results_.computed_;
      results_.kept_[key_] = {std::move(result_), ++results_.asked_};
      results_.forget_the_oldest(key_.substr(0, key_.find(' ') + 1));
    } else {
      results_.kept_.erase(key_);
    }
  }
  results_.ended_.notify_all();
}

void Results::forget_the_oldest(const std::string& kind) {
  constexpr long kMost = 24, kMostFields = 6, kMostMoves = 2;  // these have tens of megabytes
  const long most = kind == "field " ? kMostFields : kind == "moves " ? kMostMoves : kMost;
  const auto is_kept = [&](const auto& item) {
    return item.first.starts_with(kind) && item.second.result != nullptr;
  };
  if (std::count_if(kept_.begin(), kept_.end(), is_kept) <= most) return;
  auto oldest = kept_.end();
  for (auto item = kept_.begin(); item != kept_.end(); ++item) {
    if (is_kept(*item) && (oldest == kept_.end() || item->second.asked < oldest->second.asked))
      oldest = item;
  }
  kept_.erase(oldest);
}

}  // namespace spadework::study
