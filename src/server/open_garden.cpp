#include "server/open_garden.h"

#include <fmt/format.h>

#include <chrono>

#include "climate/climate.h"
#include "exchange/exchange.h"

namespace spadework::server {
namespace {

std::string file_name(const std::string& path) {
  const std::size_t slash = path.find_last_of('/');
  return slash == std::string::npos ? path : path.substr(slash + 1);
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

Result<bool> OpenGarden::load() {
  auto head = file_->head();
  if (!head) return tl::unexpected<Error>(head.error());
  if (study_ != nullptr && head->change == head_.change) return true;
  if (study_ == nullptr || head->revision != head_.revision) {
    auto text = file_->text();
    if (!text) return tl::unexpected<Error>(text.error());
    auto read = document::read_document(*text, file_name(path_), workshop_.words);
    if (!read.problems.empty()) return tl::unexpected<Error>(read.problems.front());
    text_ = std::move(*text);
    if (study_ == nullptr)
      study_ =
          std::make_unique<study::Study>(std::move(read.draft), workshop_.known, workshop_.threads);
    else
      study_->replace(std::move(read.draft));
    const std::string weather = climate::weather_file_of(study_->draft());
    if (!weather.empty()) {
      const auto bytes = file_->attachment(weather);
      if (!bytes) return tl::unexpected<Error>(bytes.error());
      auto days = exchange::read_weather(*bytes, weather);
      if (!days) return tl::unexpected<Error>(days.error());
      study_->set_weather(std::move(*days));
    }
  }
  head_ = std::move(*head);
  {
    const std::scoped_lock lock(waiting_);
    seen_ = head_.change;
  }
  changed_.notify_all();
  return true;
}

Result<OpenGarden::Held> OpenGarden::hold() {
  std::unique_lock lock(mutex_);
  if (!file_)
    return fail(ErrorCode::kUnknownId, "", "This garden was taken off the shelf.",
                "Put it back, then open it again.");
  if (auto loaded = load(); !loaded) return tl::unexpected<Error>(loaded.error());
  return Held(std::move(lock), *this);
}

Result<OpenGarden::Held::Edited> OpenGarden::Held::edited(
    const std::vector<document::Edit>& edits) const {
  auto text = document::patch(garden_.text_, edits);
  if (!text) return tl::unexpected<Error>(text.error());
  auto read = document::read_document(*text, file_name(garden_.path_), garden_.workshop_.words);
  const std::string weather = climate::weather_file_of(read.draft);
  if (!weather.empty() && !garden_.file_->attachment(weather))
    read.problems.push_back(no_weather_file(weather));
  return Edited{std::move(*text), std::move(read.draft), std::move(read.problems)};
}

Error no_weather_file(const std::string& name) {
  return {ErrorCode::kImpossibleValue, "climate.weather_file",
          fmt::format("The weather file {} is not with this garden.", name),
          "Leave climate.weather_file out: then the stations around stand in."};
}

Result<bool> OpenGarden::Held::take(const Result<store::Head>& head) {
  if (!head) return tl::unexpected<Error>(head.error());
  return garden_.load();
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
