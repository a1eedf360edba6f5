// What the stores have to say for themselves: what came back from the second one, what is damaged, and
// that somebody took away what was stored.
#include <utility>

#include "app.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

std::string_view news_key(StoreNews news) {
  switch (news) {
    case StoreNews::back: return "news.back";
    case StoreNews::mended: return "news.mended";
    case StoreNews::damaged: return "news.damaged";
    case StoreNews::wiped: return "news.wiped";
    case StoreNews::cleared: return "news.cleared";
    case StoreNews::copied: return "news.copied";
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
  rooms_.notices.now = Notice{form_of(news_key(news), static_cast<double>(count)),
                              {std::to_string(count)},
                              false,
                              is_bad,
                              true};
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
