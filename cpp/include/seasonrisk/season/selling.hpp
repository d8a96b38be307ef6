// SPDX-License-Identifier: MIT
#pragma once

#include "seasonrisk/random/draws.hpp"
#include "seasonrisk/season/prices.hpp"
#include "seasonrisk/season/store.hpp"
#include "seasonrisk/season/workspace.hpp"

/// \file
/// The evening's selling: orders first, then what is not to be kept through the outlets in order, then the store,
/// then a sale in a hurry (design, section 5).
namespace seasonrisk {

/// A sale is shared out to the boats whose catch it was. Levy comes off every sale, the cost of selling a unit too.
SEASONRISK_STEP void book_sale(Workspace& work, const std::vector<Lanes>& taken, const Lanes& price, const Lanes& cost_per_unit, Lanes& money) {
    money = Lanes(0.0);
    for (std::size_t b = 0; b < taken.size(); ++b) {
        BoatWork& boat = work.boat[b];
        SEASONRISK_EACH_LANE {
            const double sale = taken[b][i] * price[i];
            boat.sales_today[i] += sale;
            boat.year.sales[i] += sale;
            money[i] += sale;
            const double selling = sale * work.plan.prices.levy_fraction[i] + taken[b][i] * cost_per_unit[i];
            work.earned.selling_costs[i] += selling;
            boat.year.selling_costs[i] += selling;
            work.cash.balance[i] -= selling;
        }
    }
    add(work.earned.sales, money);
}

/// Where the day's takings are put while a good is sold: one Lanes a boat.
SEASONRISK_STEP void take_and_book(Workspace& work, std::vector<Lanes>& pool, Lanes& want, const Lanes& price, const Lanes& cost_per_unit, Lanes& sold, Lanes& money) {
    Lanes sale;
    add(sold, take_from(pool, want, work.taken));
    book_sale(work, work.taken, price, cost_per_unit, sale);
    add(money, sale);
}

/// The catch as goods: each boat's landing of each grade.
SEASONRISK_STEP void sort_the_landing(const PreparedPlan& ready, Workspace& work) {
    for (std::size_t g = 0; g < work.goods.size(); ++g) {
        GoodWork& good = work.goods[g];
        good.landed_today = Lanes(0.0);
        for (std::size_t b = 0; b < work.boat.size(); ++b) {
            const Lanes& caught = work.boat[b].species[ready.goods[g].species].caught_today;
            SEASONRISK_EACH_LANE good.landed[b][i] = caught[i] * good.share[i];
            add(good.landed_today, good.landed[b]);
        }
    }
}

/// In the morning: the night's deaths, a die-off if one comes, and everything is a day older.
SEASONRISK_STEP void look_at_the_store(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Day& day) {
    if (!work.store_holds) return;
    for (std::size_t g = 0; g < work.goods.size(); ++g) {
        if (!ready.goods[g].holding) continue;
        GoodWork& good = work.goods[g];
        const Holding<Lanes>& holding = work.plan.holding[*ready.goods[g].holding];
        const Lanes* deaths = last_given(holding.loss_per_night_fraction, day.month);
        Lanes alive;
        SEASONRISK_EACH_LANE alive[i] = deaths == nullptr ? 1.0 : 1.0 - (*deaths)[i];
        if (ready.die_offs[g]) {
            const Lanes uniforms = uniforms_at(at_batch.draw, at_batch.key, on_day(day.slot, Purpose::die_off, {0, static_cast<std::uint32_t>(g)}), at_batch.first_history);
            SEASONRISK_EACH_LANE alive[i] *= uniforms[i] < holding.die_off_odds_per_day[i] ? 1.0 - holding.die_off_fraction[i] : 1.0;
        }
        for (std::vector<Lanes>& cohort : good.kept) {
            for (Lanes& part : cohort) {
                SEASONRISK_EACH_LANE {
                    good.died[i] += part[i] * (1.0 - alive[i]);
                    part[i] *= alive[i];
                }
            }
        }
        const std::size_t last = good.kept.size() - 1;
        for (std::size_t b = 0; b < work.boat.size(); ++b) {
            if (last == 0) continue;
            add(good.kept[last][b], good.kept[last - 1][b]);  // the last cohort is past its days: nothing is left in it
            for (std::size_t age = last - 1; age > 0; --age) good.kept[age][b] = good.kept[age - 1][b];
            good.kept[0][b] = Lanes(0.0);
        }
    }
}

/// A week is kept when none of the days it was due in was short. What is missing by rounding alone is not short.
SEASONRISK_STEP void count_the_week(OrderWork& state, const Day& day, const Lanes& ordered, const Lanes& missing) {
    const Date week = monday_of(day.date);
    if (week != state.week) {
        state.week = week;
        add(state.weeks_due, Lanes(1.0));
        add(state.weeks_kept, Lanes(1.0));
        state.kept_this_week = Lanes(1.0);
    }
    SEASONRISK_EACH_LANE {
        const double missed = missing[i] > 1e-9 * ordered[i] ? state.kept_this_week[i] : 0.0;
        state.weeks_kept[i] -= missed;
        state.kept_this_week[i] -= missed;
    }
}

/// What was promised goes out first, the oldest stock, kept or not.
SEASONRISK_STEP void deliver_orders(const PreparedPlan& ready, Workspace& work, const Calendar& calendar, const Day& day) {
    for (std::size_t n = 0; n < work.order.size(); ++n) {
        const Order<Number>& dated = ready.plan.order[n];
        const Date from = dated.from ? years_later(*dated.from, calendar.year) : calendar.season_start;
        const Date to = dated.to ? years_later(*dated.to, calendar.year) : calendar.season_end;
        if (day.date < from || day.date > to || !on_weekday(day.date, dated.days)) continue;
        const Order<Lanes>& order = work.plan.order[n];
        OrderWork& state = work.order[n];
        GoodWork& good = work.goods[state.good];
        Lanes want, price, ordered;
        SEASONRISK_EACH_LANE {
            ordered[i] = order.quantity[i] * state.state[i];
            want[i] = ordered[i];
            price[i] = order.price[i] * work.growth.prices[i];
        }
        Lanes delivered(0.0), money(0.0);
        for (std::size_t age = good.kept.size(); age-- > 0;) take_and_book(work, good.kept[age], want, price, work.no_luck, delivered, money);
        take_and_book(work, good.landed, want, price, work.no_luck, delivered, money);
        add(work.cash.balance, money);
        count_the_week(state, day, ordered, want);
        SEASONRISK_EACH_LANE {
            const double missing = want[i];
            const double cost_each = order.buy_in_price ? (*order.buy_in_price)[i] - order.price[i] : order.refund_per_unit ? (*order.refund_per_unit)[i] : 0.0;
            const double cost = missing * cost_each * work.growth.prices[i];
            work.earned.order_shortfalls[i] += cost;
            work.cash.balance[i] -= cost;
            state.ordered[i] += ordered[i];
            state.delivered[i] += delivered[i];
            state.short_of[i] += missing;
            state.last_ordered[i] = ordered[i];
            if (ordered[i] > 0.0) state.state[i] *= 1.0 - order.leave_fraction[i] * missing / ordered[i];
        }
    }
}

/// A part of what orders leave of today's landing is kept for the outlet it is meant for.
SEASONRISK_STEP void keep_back(const PreparedPlan& ready, Workspace& work) {
    for (std::size_t g = 0; g < work.goods.size(); ++g) {
        if (!ready.goods[g].holding) continue;
        const std::size_t h = *ready.goods[g].holding;
        if (ready.plan.holding[h].keep_for.empty()) continue;
        GoodWork& good = work.goods[g];
        for (std::size_t b = 0; b < good.landed.size(); ++b) {
            SEASONRISK_EACH_LANE {
                const double kept = good.landed[b][i] * work.plan.holding[h].keep_fraction[i];
                good.kept[0][b][i] += kept;
                good.landed[b][i] -= kept;
            }
        }
        work.store_holds = true;
    }
}

SEASONRISK_STEP void cap(Lanes& room, const Lanes& most) {
    SEASONRISK_EACH_LANE room[i] = most[i] < room[i] ? most[i] : room[i];
}

/// The count that walk-up customers ask for, history by history.
Lanes demand_today(BatchAddress at_batch, const Day& day, std::size_t outlet, std::uint32_t block, const Lanes& mean, const std::optional<Lanes>& sd);

/// An outlet pays after its days: a delay that is no guess is the same in every history.
SEASONRISK_STEP void expect_payment(const PreparedPlan& ready, Workspace& work, const Lanes& money, int today, std::size_t o) {
    const Lanes& delay_days = work.plan.outlet[o].paid_after_days;
    if (ready.plan.outlet[o].paid_after_days.is_guess) expect_money(work.cash, money, today, delay_days);
    else expect_money(work.cash, money, today, static_cast<int>(delay_days[0]));
}

/// One outlet buys, the goods it takes in the plan's order, of each the oldest first.
SEASONRISK_STEP void sell_to_outlet(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Day& day, int today, std::size_t o) {
    constexpr double no_end = 1e300;
    const auto& outlet = work.plan.outlet[o];
    OutletWork& state = work.outlet[o];
    Lanes room(no_end);
    if (outlet.daily_limit.total) cap(room, *outlet.daily_limit.total);
    if (outlet.demand_per_open_day.total) cap(room, demand_today(at_batch, day, o, 0, *outlet.demand_per_open_day.total, outlet.demand_sd));
    Lanes money(0.0);
    for (std::size_t g = 0; g < work.goods.size(); ++g) {
        if (state.base_price[g] == nullptr) continue;
        GoodWork& good = work.goods[g];
        Lanes want = room;
        if (state.limit_of[g] != nullptr) cap(want, *state.limit_of[g]);
        if (state.demand_of[g] != nullptr) cap(want, demand_today(at_batch, day, o, state.demand_block[g], *state.demand_of[g], outlet.demand_sd));
        Lanes sold(0.0);
        if (ready.goods[g].holding && work.store_holds) {
            const Holding<Number>& holding = ready.plan.holding[*ready.goods[g].holding];
            const Lanes& longest = work.plan.holding[*ready.goods[g].holding].longest_days;
            const bool for_this_one = holding.keep_for.empty() || holding.keep_for == ready.plan.outlet[o].name;
            for (std::size_t age = good.kept.size(); age-- > 0;) {
                if (for_this_one) {
                    take_and_book(work, good.kept[age], want, state.price_today[g], outlet.cost_per_unit, sold, money);
                    continue;
                }
                // Kept for another: offered here on its last allowed day alone.
                Lanes offered;
                SEASONRISK_EACH_LANE offered[i] = static_cast<double>(age) >= longest[i] ? want[i] : 0.0;
                if (!any_above_zero(offered)) continue;
                const Lanes before = offered;
                take_and_book(work, good.kept[age], offered, state.price_today[g], outlet.cost_per_unit, sold, money);
                SEASONRISK_EACH_LANE want[i] -= before[i] - offered[i];
            }
        }
        if (work.landing_today) take_and_book(work, good.landed, want, state.price_today[g], outlet.cost_per_unit, sold, money);
        add(state.sold[g], sold);
        // Sold in several parts, it can come to a rounding more than the room there was.
        SEASONRISK_EACH_LANE room[i] = sold[i] < room[i] ? room[i] - sold[i] : 0.0;
    }
    SEASONRISK_EACH_LANE {
        const double unpaid = state.unpaid_week[i] * money[i];
        work.earned.missed_settlements[i] += unpaid;
        money[i] -= unpaid;
    }
    expect_payment(ready, work, money, today, o);
}

/// A sale in a hurry, this evening, for a part of the lowest price.
SEASONRISK_STEP void sell_off(const PreparedPlan& ready, Workspace& work, const Day& day, std::size_t g, std::vector<Lanes>& pool, Lanes& want) {
    GoodWork& good = work.goods[g];
    const Lanes lowest = lowest_price(ready, work, day, g);
    const Lanes& fraction = work.plan.holding[*ready.goods[g].holding].forced_price_fraction;
    Lanes price;
    SEASONRISK_EACH_LANE price[i] = fraction[i] * lowest[i];
    Lanes sold(0.0), money(0.0);
    take_and_book(work, pool, want, price, work.no_luck, sold, money);
    add(good.forced, sold);
    add(work.cash.balance, money);
}

/// What no outlet took goes into the store, within its age and its room; the rest is sold off, the oldest first. Of
/// a good that cannot be kept it is worth nothing.
SEASONRISK_STEP void put_away(const PreparedPlan& ready, Workspace& work, const Day& day) {
    bool holds = false;
    for (std::size_t g = 0; g < work.goods.size(); ++g) {
        GoodWork& good = work.goods[g];
        if (!ready.goods[g].holding) {
            if (!work.landing_today) continue;
            for (Lanes& part : good.landed) {
                add(good.unsold, part);
                part = Lanes(0.0);
            }
            continue;
        }
        const Holding<Lanes>& holding = work.plan.holding[*ready.goods[g].holding];
        if (work.landing_today) {
            for (std::size_t b = 0; b < good.landed.size(); ++b) {
                add(good.kept[0][b], good.landed[b]);
                good.landed[b] = Lanes(0.0);
            }
        }
        Lanes in_store(0.0);
        for (std::size_t age = good.kept.size(); age-- > 0;) {
            Lanes too_old;
            const bool past_all = age + 1 == good.kept.size();
            SEASONRISK_EACH_LANE too_old[i] = past_all || static_cast<double>(age) >= holding.longest_days[i] ? 1e300 : 0.0;
            if (any_above_zero(too_old)) sell_off(ready, work, day, g, good.kept[age], too_old);
            for (const Lanes& part : good.kept[age]) add(in_store, part);
        }
        Lanes over;
        SEASONRISK_EACH_LANE {
            over[i] = in_store[i] > holding.capacity[i] ? in_store[i] - holding.capacity[i] : 0.0;
            good.held[i] = in_store[i] - over[i];
        }
        const bool any_over = any_above_zero(over);
        holds = holds || any_above_zero(good.held);
        for (std::size_t age = good.kept.size(); any_over && age-- > 0;) sell_off(ready, work, day, g, good.kept[age], over);
    }
    work.store_holds = holds;
}

/// The evening, when there is something to sell, something kept, something promised, or a stall to pay for.
SEASONRISK_STEP void sell_the_day(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Calendar& calendar, const Day& day, int today) {
    const bool anything = work.landing_today || work.store_holds;
    if (work.landing_today) sort_the_landing(ready, work);
    else for (GoodWork& good : work.goods) {
        good.landed_today = Lanes(0.0);
        for (Lanes& part : good.landed) part = Lanes(0.0);
    }
    deliver_orders(ready, work, calendar, day);
    if (work.landing_today) keep_back(ready, work);
    for (std::size_t o = 0; o < work.outlet.size(); ++o) {
        if (anything) answer_landings(ready, work, calendar, day, o);
        if (!is_open(ready.plan.outlet[o], day)) continue;
        if (day.in_season) {
            const auto& outlet = work.plan.outlet[o];
            add(work.outlet[o].open_days, Lanes(1.0));
            add(work.earned.selling_costs, outlet.cost_per_open_day);
            pay(work.cash, outlet.cost_per_open_day);
            add(work.hours, outlet.hours_per_open_day);
        }
        if (anything) sell_to_outlet(ready, work, at_batch, day, today, o);
    }
    if (anything) put_away(ready, work, day);
}

/// Each week of the season a buyer may fail to settle: then nothing of that week is ever paid.
SEASONRISK_STEP void settle_week_of_buyers(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Calendar& calendar, const Day& day) {
    for (std::size_t o = 0; o < work.outlet.size(); ++o) {
        if (!ready.may_not_settle[o] || (!day.monday && day.date != calendar.season_start)) continue;
        if (day.date > calendar.season_end) {
            work.outlet[o].unpaid_week = Lanes(0.0);
            continue;
        }
        const Lanes uniforms = uniforms_at(at_batch.draw, at_batch.key,
                                           on_day(day_slot(monday_of(day.date)), Purpose::missed_settlement, {0, static_cast<std::uint32_t>(o)}), at_batch.first_history);
        const double weeks = static_cast<double>((monday_of(calendar.season_end) - monday_of(calendar.season_start)).count()) / 7.0 + 1.0;
        const Lanes& odds = work.plan.outlet[o].missed_settlement_odds_per_year;
        SEASONRISK_EACH_LANE work.outlet[o].unpaid_week[i] = uniforms[i] < 1.0 - exp(log(1.0 - odds[i]) / weeks) ? 1.0 : 0.0;
    }
}

}  // namespace seasonrisk
