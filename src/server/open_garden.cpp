#include "server/open_garden.h"

#include <fmt/format.h>

#include <chrono>

#include "climate/climate.h"
#include "exchange/garden_weather.h"

namespace spadework::server {
namespace {

/// Of all that a weather file is taken and doubted by.
std::string weather_key_of(const garden::Draft& draft) {
  std::string key = climate::weather_file_of(draft);
  const garden::Entry* garden = draft.single("garden");
  if (garden == nullptr) return key;
  for (const garden::Field& field : garden->fields)
    key += "\n" + field.key + " = " + garden::value_says(field.value);
  return key;
}

}  // namespace

OpenGarden::OpenGarden(std::string path, store::GardenFile file, const Workshop& workshop)
    : path_(std::move(path)), file_(std::move(file)), workshop_(workshop) {}

Result<std::shared_ptr<OpenGarden>> OpenGarden::open(const std::string& path,
                                                     const Workshop& workshop) {
  auto file = store::GardenFile::open(path, workshop.program);
  if (!file) return tl::unexpected<Error>(file.error());
  std::shared_ptr<OpenGarden> garden(new OpenGarden(path, std::move(*file), workshop));
  if (auto loaded = garden->load(); !loaded) return tl::unexpected<Error>(loaded.error());
  return garden;
}

/// The document that the file has now, read; problems are errors.
Result<OpenGarden::Held::Edited> OpenGarden::document_now(Held::Edited* written) {
  auto text = file_->text();
  if (!text) return tl::unexpected<Error>(text.error());
  if (written != nullptr && written->problems.empty() && written->source.text() == *text)
    return std::move(*written);
  document::Source source(std::move(*text));
  auto read = document::read_document(source, store::document_name(path_), workshop_.words);
  if (!read.problems.empty()) return tl::unexpected<Error>(read.problems.front());
  return Held::Edited{std::move(source), std::move(read.draft), {}};
}

Result<bool> OpenGarden::load(Held::Edited* written) {
  auto head = file_->head();
  if (!head) return tl::unexpected<Error>(head.error());
  const bool same = now_ != nullptr && head->change == now_->head.change;
  if (same && file_->read_only() == now_->read_only) return true;
  std::shared_ptr<Now> now;
  if (now_ == nullptr || head->revision != now_->head.revision) {
    auto has = document_now(written);
    if (!has) return tl::unexpected<Error>(has.error());
    if (now_ == nullptr) {
      now = std::make_shared<Now>(
          Now{{},
              false,
              std::move(has->source),
              study::Study(std::move(has->draft), workshop_.known, workshop_.threads),
              {}});
    } else {
      now = std::make_shared<Now>(*now_);
      now->source = std::move(has->source);
      now->study.replace(std::move(has->draft));
    }
  } else {
    now = std::make_shared<Now>(*now_);
  }
  take_weather(*now);
  now->head = std::move(*head);
  now->read_only = file_->read_only();
  now_ = std::move(now);
  {
    const std::scoped_lock lock(waiting_);
    seen_ = now_->head.change;
  }
  changed_.notify_all();
  return true;
}

/// A file's name belongs to its bytes for good: one that was read once is not read again.
void OpenGarden::take_weather(Now& now) {
  const std::string key = weather_key_of(now.study.draft());
  if (key == weather_key_ && !now.weather_problem) return;
  weather_key_ = key;
  const std::string name = climate::weather_file_of(now.study.draft());
  now.weather_problem = exchange::give_kept_weather(
      now.study, name.empty() ? Result<std::string>(std::string()) : file_->attachment(name));
}

Result<OpenGarden::Held> OpenGarden::hold() {
  std::unique_lock lock(mutex_);
  if (!file_)
    return fail(ErrorCode::kUnknownId, "", "This garden was taken off the shelf.",
                "Put it back, then open it again.");
  if (auto loaded = load(); !loaded) return tl::unexpected<Error>(loaded.error());
  return Held(std::move(lock), *this);
}

std::shared_ptr<Progress> OpenGarden::Held::begin_trial() {
  SW_CHECK(lock_.owns_lock());
  std::erase_if(garden_.trials_, [](const auto& trial) { return trial.expired(); });
  auto trial = std::make_shared<Progress>();
  garden_.trials_.push_back(trial);
  return trial;
}

void OpenGarden::Held::end_trials() {
  SW_CHECK(lock_.owns_lock());
  for (const std::weak_ptr<Progress>& trial : garden_.trials_)
    if (const auto under_way = trial.lock()) under_way->cancel();
  garden_.trials_.clear();
}

Result<OpenGarden::Held::Edited> OpenGarden::Held::edited(
    const document::Source& before, const std::vector<document::Edit>& edits) const {
  auto source = document::patch(before, edits);
  if (!source) return tl::unexpected<Error>(source.error());
  auto read = document::read_document(*source, store::document_name(garden_.path_),
                                      garden_.workshop_.words);
  return Edited{std::move(*source), std::move(read.draft), std::move(read.problems)};
}

Result<bool> OpenGarden::Held::take(const Result<store::Head>& head, Edited* written) {
  if (!head) return tl::unexpected<Error>(head.error());
  auto loaded = garden_.load(written);
  now_ = garden_.now_;
  return loaded;
}

std::int64_t OpenGarden::wait_for_change(std::int64_t change, int most_ms) {
  std::unique_lock lock(waiting_);
  changed_.wait_for(lock, std::chrono::milliseconds(most_ms),
                    [&] { return seen_ != change || over_; });
  return seen_;
}

void OpenGarden::close() {
  {
    const std::scoped_lock lock(mutex_);
    file_.reset();
  }
  {
    const std::scoped_lock lock(waiting_);
    over_ = true;
  }
  changed_.notify_all();
}

}  // namespace spadework::server
