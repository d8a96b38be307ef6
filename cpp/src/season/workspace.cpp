// SPDX-License-Identifier: MIT
#include "seasonrisk/season/workspace.hpp"

#include <algorithm>

#include "plan_in_lanes.hpp"
#include "seasonrisk/plan/guesses.hpp"

namespace seasonrisk {
namespace {

void make_room_for_boats(const PreparedPlan& ready, Workspace& work) {
    const std::size_t n_species = ready.plan.species.size();
    work.ground.resize(n_species);
    for (std::size_t k = 0; k < n_species; ++k) work.ground[k].luck_item = ready.ground_moves[k] ? work.draws.normal_items++ : -1;
    work.boat.resize(ready.boats());
    for (std::size_t b = 0; b < ready.boats(); ++b) {
        const PreparedBoat& prepared = ready.boat[b];
        BoatWork& boat = work.boat[b];
        boat.prepared = &prepared;
        boat.species.resize(n_species);
        boat.fishery.resize(prepared.fishery.size());
        for (std::size_t f = 0; f < prepared.fishery.size(); ++f) {
            FisheryWork& fishery = boat.fishery[f];
            fishery.prepared = &prepared.fishery[f];
            fishery.soak.resize(fishery.prepared->species.size());
            fishery.per_haul_now.resize(fishery.prepared->species.size());
        }
        for (std::size_t k = 0; k < n_species; ++k) {
            const bool catches = std::ranges::any_of(prepared.fishery, [&](const PreparedFishery& fishery) {
                return std::ranges::find(fishery.species, k) != fishery.species.end();
            });
            boat.species[k].has_luck = catches && (ready.ground_moves[k] || ready.boat_moves[k]);
            boat.luck_item.push_back(ready.boat_moves[k] && catches ? work.draws.normal_items++ : -1);
        }
        boat.breakdown.resize(ready.plan.boat[b].breakdown.size());
        boat.hand.resize(ready.plan.boat[b].crew.size());
        for (HandWork& hand : boat.hand) hand.absent_today = Lanes(0.0);
        boat.hauls_factor = Lanes(1.0);
    }
    work.draws.wanted.reserve(static_cast<std::size_t>(work.draws.normal_items) * k_days_in_block);
    work.draws.normals.resize(static_cast<std::size_t>(work.draws.normal_items) * k_days_in_block);
    work.draws.uniforms.resize(k_days_in_block);
    work.draws.of_year.resize(k_year_species + 2 * n_species + k_days_in_block - 1);
}

void make_room_for_goods(const PreparedPlan& ready, Workspace& work) {
    work.goods.resize(ready.goods.size());
    work.taken.resize(ready.boats());
    for (std::size_t g = 0; g < ready.goods.size(); ++g) {
        GoodWork& good = work.goods[g];
        good.share = Lanes(1.0);
        good.landed.resize(ready.boats());
        if (!ready.goods[g].holding) continue;
        // A guess of the longest time is followed this far; the rule book lets no fixed one be longer.
        constexpr std::size_t longest = 120;
        const Number& days = ready.plan.holding[*ready.goods[g].holding].longest_days;
        const std::size_t ages = (days.is_guess ? longest : static_cast<std::size_t>(days.typical)) + 1;
        good.kept.assign(ages, std::vector<Lanes>(ready.boats(), Lanes(0.0)));
    }
}

/// The number of a good in a "total or each" of an outlet, by its own name or its species'.
const Lanes* each_of(const TotalOrEach<Lanes>& numbers, const std::string& name, std::uint32_t* place) {
    for (std::size_t n = 0; n < numbers.each.size(); ++n) {
        if (numbers.each[n].first != name) continue;
        if (place != nullptr) *place = static_cast<std::uint32_t>(n);
        return &numbers.each[n].second;
    }
    return nullptr;
}

void make_room_for_outlets(const PreparedPlan& ready, Workspace& work) {
    work.outlet.resize(work.plan.outlet.size());
    for (std::size_t o = 0; o < work.outlet.size(); ++o) {
        OutletWork& state = work.outlet[o];
        const Outlet<Lanes>& outlet = work.plan.outlet[o];
        state.season_factor.assign(ready.plan.species.size(), Lanes(1.0));
        state.year_factor.assign(ready.plan.species.size(), Lanes(1.0));
        state.price_of_catch.assign(ready.plan.species.size(), Lanes(0.0));
        state.unpaid_week = Lanes(0.0);
        for (std::size_t g = 0; g < ready.goods.size(); ++g) {
            const int place = ready.price_place[o][g];
            std::uint32_t block = 0;
            state.base_price.push_back(place < 0 ? nullptr : &outlet.price.items[static_cast<std::size_t>(place)].second);
            state.limit_of.push_back(each_of(outlet.daily_limit, ready.goods[g].name, nullptr));
            state.demand_of.push_back(each_of(outlet.demand_per_open_day, ready.goods[g].name, &block));
            state.demand_block.push_back(block + 1);
            state.price_now.emplace_back(0.0);
            state.price_today.emplace_back(0.0);
            state.sold.emplace_back(0.0);
        }
    }
    const auto good_of = [&](const std::string& name) {
        return static_cast<std::size_t>(std::ranges::find(ready.goods, name, &PreparedGood::name) - ready.goods.begin());
    };
    work.order.resize(ready.plan.order.size());
    for (std::size_t n = 0; n < work.order.size(); ++n) work.order[n].good = good_of(ready.plan.order[n].grade);
    work.limit.resize(ready.plan.limit.size());
    for (std::size_t n = 0; n < work.limit.size(); ++n) {
        const auto species = std::ranges::find(ready.plan.species, ready.plan.limit[n].species, &Species<Number>::name);
        work.limit[n].species = static_cast<std::size_t>(species - ready.plan.species.begin());
    }
}

/// Money that came in before today has come in, and its rows are empty in both, as are those after the last.
void take_cash(const CashBook& from, CashBook& to, std::size_t today) {
    std::vector<Lanes> incoming = std::move(to.incoming);
    const auto rows = static_cast<std::size_t>(from.last_incoming + 1);
    for (std::size_t row = today; row < rows; ++row) incoming[row] = from.incoming[row];
    to.last_incoming = from.last_incoming;
    to.balance = from.balance;
    to.interest_due = from.interest_due;
    to.due = from.due;
    to.loan_due = from.loan_due;
    to.month_end = from.month_end;
    to.missed_payments = from.missed_payments;
    to.lowest_of_year = from.lowest_of_year;
    to.shortfall_of_year = from.shortfall_of_year;
    to.lowest = from.lowest;
    to.lowest_month = from.lowest_month;
    to.room = from.room;
    to.pots_to_replace = from.pots_to_replace;
    to.loss_forward = from.loss_forward;
    to.incoming = std::move(incoming);
}

}  // namespace

Workspace::Workspace(const PreparedPlan& ready) {
    NoteValues noted;
    Plan::fields(ready.plan, noted);
    LayInLanes laid{noted.notes};
    PlanOf<Lanes>::fields(plan, laid);
    for (const Guess& guess : guesses_of(ready.plan)) guess_targets.push_back(laid.places.at(guess.path));

    const std::size_t n_species = plan.species.size();
    for (auto* per_species : {&year.own_catch, &year.own_price, &year.price}) per_species->assign(n_species, Lanes(0.0));
    make_room_for_boats(ready, *this);
    make_room_for_goods(ready, *this);
    make_room_for_outlets(ready, *this);
    fleet_catch.assign(n_species, Lanes(0.0));
    shock.resize(ready.plan.shock.size());
    input.resize(ready.plan.input.size());
    loan.resize(ready.plan.loan.size());
    family.resize(ready.plan.family_date.size());
    owner.away_today = Lanes(0.0);
    cash.due.resize(12 * ready.years.size());
    cash.month_end.resize(12 * ready.years.size());
    cash.loan_due.resize(12 * ready.years.size());
    for (std::vector<Lanes>* years : {&cash.lowest_of_year, &cash.shortfall_of_year, &cash.loan_balance_of_year}) years->resize(ready.years.size());
    cash.incoming.assign(static_cast<std::size_t>(ready.days_in_history) + 1, Lanes(0.0));
}

void Workspace::take_guesses(const Workspace& other) {
    for (std::size_t g = 0; g < guess_targets.size(); ++g) {
        for (std::size_t place = 0; place < guess_targets[g].size(); ++place) *guess_targets[g][place] = *other.guess_targets[g][place];
    }
}

void FisheryWork::take_state(const FisheryWork& other) {
    const GearState& gear_there = other.gear;
    for (auto number : {&GearState::in_water, &GearState::setting_days_left, &GearState::gear_in_days_left, &GearState::lifted,
                        &GearState::lost, &GearState::spare, &GearState::hauls_today})
        gear.*number = gear_there.*number;
    gear.rotation_slots = gear_there.rotation_slots;
    gear.still_setting = gear_there.still_setting;
    gear.has_spare = gear_there.has_spare;
    gear.soaked_tonight = gear_there.soaked_tonight;
    const int groups = gear_there.rotation_slots + 1;
    std::copy_n(gear_there.rotation_weight, groups, gear.rotation_weight);
    for (std::size_t n = 0; n < soak.size(); ++n) {
        soak[n].soaks = other.soak[n].soaks;
        std::copy_n(other.soak[n].empty, groups, soak[n].empty);
        soak[n].empty_after_a_night = other.soak[n].empty_after_a_night;
        soak[n].one_over_usual = other.soak[n].one_over_usual;
        soak[n].factor = other.soak[n].factor;
    }
    per_haul_now = other.per_haul_now;
    for (auto number : {&FisheryWork::one_over_hauls, &FisheryWork::base_pots, &FisheryWork::crowding, &FisheryWork::daily_loss_odds,
                        &FisheryWork::loss_today, &FisheryWork::hauling})
        this->*number = other.*number;
    worked_before = other.worked_before;
    comes_in = other.comes_in;
    from = other.from;
    to = other.to;
    last = other.last;
}

void BoatWork::take_state(const BoatWork& other) {
    for (std::size_t f = 0; f < fishery.size(); ++f) fishery[f].take_state(other.fishery[f]);
    species = other.species;
    breakdown = other.breakdown;
    mishaps = other.mishaps;
    next_mishap = other.next_mishap;
    hand = other.hand;
    week = other.week;
    weather = other.weather;
    rates = other.rates;
    year = other.year;
    tried = other.tried;
    for (auto number : {&BoatWork::out, &BoatWork::setting, &BoatWork::lifting, &BoatWork::hauls_factor, &BoatWork::sales_today,
                        &BoatWork::units_today, &BoatWork::down_until, &BoatWork::gap_until,
                        &BoatWork::gap_odds_a_day})
        this->*number = other.*number;
}

void Workspace::take_state(const Workspace& other, std::size_t today) {
    year_now = other.year_now;
    year = other.year;
    growth = other.growth;
    harbour = other.harbour;
    ground = other.ground;
    for (std::size_t b = 0; b < boat.size(); ++b) boat[b].take_state(other.boat[b]);
    goods = other.goods;
    outlet = other.outlet;
    order = other.order;
    limit = other.limit;
    shock = other.shock;
    input = other.input;
    loan = other.loan;
    family = other.family;
    owner = other.owner;
    draws.normals = other.draws.normals;
    draws.uniforms = other.draws.uniforms;
    overdraft_a_day = other.overdraft_a_day;
    for (auto number : {&Workspace::bad_weather_days, &Workspace::days_both, &Workspace::claims_paid, &Workspace::hours,
                        &Workspace::hours_so_far, &Workspace::loan_so_far})
        this->*number = other.*number;
    mishaps_until = other.mishaps_until;
    told_today = other.told_today;
    landing_today = other.landing_today;
    store_holds = other.store_holds;
    worked_this_week = other.worked_this_week;
    all_ashore = other.all_ashore;
    earned = other.earned;
    take_cash(other.cash, cash, today);
}

}  // namespace seasonrisk
