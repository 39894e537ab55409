#include "server/jobs.h"

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

}  // namespace spadework::server
