// What the stores have to say for themselves: what came back from the second one, what is damaged, and
// that somebody took away what was stored.
#include <utility>

#include "app.h"

namespace tallyblock {
namespace {

std::string_view news_key(StoreNews news, std::size_t count) {
  const bool one = count == 1;
  switch (news) {
    case StoreNews::back: return one ? "news.back-one" : "news.back";
    case StoreNews::mended: return one ? "news.mended-one" : "news.mended";
    case StoreNews::damaged: return one ? "news.damaged-one" : "news.damaged";
    case StoreNews::wiped: return "news.wiped";
    case StoreNews::cleared: return "news.cleared";
    case StoreNews::copied: return one ? "news.copied-one" : "news.copied";
  }
  return "news.wiped";
}

}  // namespace

void App::on_store_news(StoreNews news, std::size_t count) {
  if (news == StoreNews::cleared) {
    return when_here(AppPart::board, "cleared", [this, count] { taken_away_now(count); });
  }
  if (news == StoreNews::back && phase_ == Phase::ready) load_everything(false);
  const bool is_bad = news == StoreNews::damaged || news == StoreNews::wiped;
  rooms_.notices.now =
      Notice{std::string(news_key(news, count)), {std::to_string(count)}, false, is_bad, true};
  changed();
}

// It is written again by one more act, and said when that is saved.
void App::taken_away_now(std::size_t count) {
  rooms_.write_all_again();
  if (phase_ == Phase::ready) load_everything(false);
  Notice notice{"news.cleared", {std::to_string(count)}, false, false, true};
  if (rooms_.keeper.say_when_kept(notice)) return;
  rooms_.notices.now = std::move(notice);
  changed();
}

}  // namespace tallyblock
