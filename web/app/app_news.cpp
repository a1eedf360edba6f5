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
    return when_whole("cleared", [this, count] { taken_away_now(count); });
  }
  if (news == StoreNews::back && phase_ == Phase::ready) load_everything(false);
  const bool is_bad = news == StoreNews::damaged || news == StoreNews::wiped;
  notice_ = Notice{form_of(news_key(news), static_cast<double>(count)),
                   {std::to_string(count)},
                   false,
                   is_bad,
                   true};
  changed();
}

// It is written again by one more act, and said when that is saved.
void App::taken_away_now(std::size_t count) {
  write_all_again();
  if (phase_ == Phase::ready) load_everything(false);
  Notice notice{"news.cleared", {std::to_string(count)}, false, false, true};
  if (!queue_.empty()) {
    queue_.back().when_kept = std::move(notice);
  } else {
    notice_ = std::move(notice);
    changed();
  }
}

// All that is in memory: the piece that is open, the settings, the bin.
void App::write_all_again() {
  if (phase_ != Phase::ready || !writer_) return;
  Act act;
  const auto put = [&act](Area area, std::string key, std::string bytes) {
    act.ops.push_back({Op::What::put, area, std::move(key), std::move(bytes)});
  };
  put(Area::app, "settings", settings_to_json(settings_));
  put(Area::app, "erased", ids_to_json(erased_));
  for (const auto& [session, when] : bin_) put(Area::bin, session, std::to_string(when));
  if (open_ && !open_->set.empty()) {
    for (const Entry* entry : open_->set.in_order()) {
      std::string key = entry_key(open_->id, entry->id);
      act.unsaved.push_back(key);
      put(Area::entries, std::move(key), entry->text);
    }
    if (std::string head = head_to_json(*open_); !head.empty()) {
      put(Area::entries, open_->id + "/head", std::move(head));
    }
    put_card(card_of(*open_), act);
  }
  enqueue(std::move(act));
}

}  // namespace tallyblock
