#include "server/jobs.h"

#include <chrono>

namespace spadework::server {

Jobs::Work::Work(Jobs& jobs, std::string name) : jobs_(jobs), name_(std::move(name)) {
  if (name_.empty()) return;
  const std::scoped_lock lock(jobs_.mutex_);
  jobs_.running_[name_] = progress_;
}

Jobs::Work::~Work() {
  if (name_.empty()) return;
  const std::scoped_lock lock(jobs_.mutex_);
  const auto found = jobs_.running_.find(name_);
  if (found != jobs_.running_.end() && found->second == progress_) jobs_.running_.erase(found);
}

std::shared_ptr<Progress> Jobs::find(const std::string& name) {
  const std::scoped_lock lock(mutex_);
  const auto found = running_.find(name);
  return found == running_.end() ? nullptr : found->second;
}

std::optional<Turns::Turn> Turns::wait(const std::function<bool()>& is_gone) {
  constexpr auto kLook = std::chrono::milliseconds(50);
  std::unique_lock lock(mutex_);
  while (free_ == 0) {
    if (is_gone()) return std::nullopt;
    given_back_.wait_for(lock, kLook);
  }
  --free_;
  return Turn(*this);
}

Turns::Turn::~Turn() {
  if (turns_ == nullptr) return;
  {
    const std::scoped_lock lock(turns_->mutex_);
    ++turns_->free_;
  }
  turns_->given_back_.notify_one();
}

}  // namespace spadework::server
