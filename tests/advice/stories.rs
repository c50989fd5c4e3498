//! What advice says in the demo rooms: free first, leave alone, what a surface buys. And that it does not matter who works it out.

use seatward::advice::{Adviser, Found, LEVELS, Moved, PlanAdvice, Rule, Task};
use seatward::geometry::Surface;
use seatward::scenario;
use seatward::simulate::Prepared;

pub fn story(name: &str) -> Prepared {
    let path = format!("{}/scenarios/{name}.json", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path}: {error}"));
    Prepared::new(scenario::from_json(&text).unwrap_or_else(|error| panic!("{error}")))
}

fn adviser(name: &str) -> Adviser {
    Adviser::new(story(name), 0).expect("a plan")
}

fn answer(adviser: &mut Adviser, task: Task) -> Found {
    adviser.start(task).expect("a task").run(adviser)
}

fn best(adviser: &mut Adviser) -> PlanAdvice {
    match answer(adviser, Task::Best) {
        Found::Best { plan, .. } => plan,
        other => panic!("{other:?}"),
    }
}

#[test]
fn answers_do_not_depend_on_who_works_or_on_the_slices() {
    let mut one = adviser("tall-room");
    let tasks: Vec<Task> = one.tasks();
    let together: Vec<Found> = tasks.iter().map(|task| answer(&mut one, *task)).collect();
    // Four workers take turns, from the last task to the first, in slices of another length.
    let mut workers: Vec<Adviser> = (0..4).map(|_| adviser("tall-room")).collect();
    for (number, task) in tasks.iter().enumerate().rev() {
        let worker = &mut workers[number % 4];
        let mut work = worker.start(*task).expect("a task");
        let mut progress = 0.0;
        let found = loop {
            if let Some(found) = work.more(worker, 1 + number % 7) {
                break found;
            }
            assert!(work.progress() >= progress, "{task:?} goes back");
            progress = work.progress();
        };
        assert_eq!(found, together[number], "{task:?}");
    }
}

#[test]
fn a_first_plan_comes_before_the_final_one_and_each_told_between_is_better() {
    let mut most = 0;
    for name in crate::quality::STORIES {
        let mut room = adviser(name);
        let mut work = room.start(Task::Best).expect("a task");
        let mut told = Vec::new();
        let last = loop {
            if let Some(found) = work.more(&mut room, 1) {
                break found;
            }
            told.extend(work.so_far(&mut room));
        };
        let steps = |found: &Found| match found {
            Found::Best { plan, .. } => (plan.before.sum(), plan.after.sum()),
            other => panic!("{other:?}"),
        };
        let (before, early) = steps(told.first().expect("a first plan"));
        let (_, late) = steps(&last);
        println!("{name}: {before:.2}, told {} times, {late:.2}", told.len());
        // Where no single piece helps, the first plan is the one that is there.
        assert!(
            early <= before && late <= early && late < before,
            "{before}, {early}, {late}"
        );
        for pair in told.windows(2) {
            assert!(steps(&pair[1]).1 < steps(&pair[0]).1 - 0.05, "{name}");
        }
        most = most.max(told.len());
    }
    assert!(most > 1, "nobody is told of a better plan");
}

#[test]
fn what_is_there_already_counts_for_what_it_does() {
    // The study's foam does harm; a room with nothing in it has nothing to show.
    for (name, low, high) in [("square-study", -10.0, 0.0), ("tall-room", 0.0, 0.0)] {
        let mut room = adviser(name);
        let Found::Best { today, plan, .. } = answer(&mut room, Task::Best) else {
            panic!("no plan");
        };
        println!("{name}: {today:?}");
        assert!((low..=high).contains(&today.gained), "{name}: {today:?}");
        assert_eq!(
            today.pieces == 0,
            today.bare_s == plan.middle_s[0],
            "{name}"
        );
    }
}

#[test]
fn more_money_never_buys_less_and_the_gain_flattens() {
    let mut terrace = adviser("long-terrace-room");
    let mut levels = Vec::new();
    for level in 1..=LEVELS {
        let Found::Level { budget, plan, .. } = answer(&mut terrace, Task::Level(level)) else {
            panic!("no level");
        };
        assert!(plan.price <= budget, "{level}: {} of {budget}", plan.price);
        println!(
            "{budget}: {:.2} steps, {:?}",
            plan.after.sum(),
            plan.middle_s
        );
        assert!(
            levels
                .last()
                .is_none_or(|before| plan.after.sound() <= before + 0.05),
            "level {level} is worse than the one before"
        );
        levels.push(plan.after.sound());
    }
    let first = levels[0] - levels[1];
    let last = levels[LEVELS - 2] - levels[LEVELS - 1];
    assert!(last < first, "{first}, {last}");
}

#[test]
fn the_corner_room_is_treated_without_a_hole() {
    let mut room = adviser("rented-corner-room");
    let plan = best(&mut room);
    let [Some(before_s), Some(after_s)] = plan.middle_s else {
        panic!("no decay");
    };
    println!("A: {before_s:.2} to {after_s:.2} s for {}", plan.price);
    assert!(after_s < 0.6 * before_s && plan.price <= 300.0);
    let Found::Unlimited { plan: without } = answer(&mut room, Task::Unlimited) else {
        panic!("no plan without limits");
    };
    assert!(without.after.sum() <= plan.after.sum() + 1e-9);
}

#[test]
fn the_terrace_spends_its_first_money_beside_the_loudspeakers() {
    let mut terrace = adviser("long-terrace-room");
    let Found::Best {
        order, refusals, ..
    } = answer(&mut terrace, Task::Best)
    else {
        panic!("no plan");
    };
    let first = &order[0].pieces;
    let on_sides = first.iter().all(|piece| {
        let text = format!("{:?}", piece.place);
        text.contains("Left") || text.contains("Right")
    });
    assert!(on_sides, "{first:?}");
    let ceiling: Vec<Rule> = refusals
        .iter()
        .filter(|one| one.surface == Surface::Ceiling && one.loudspeaker.is_none())
        .map(|one| one.rule)
        .collect();
    assert!(!ceiling.is_empty() && ceiling.iter().all(|rule| *rule == Rule::Bare));
}

#[test]
fn the_loft_spends_on_decay_rather_than_on_its_late_side_bounces() {
    let mut loft = adviser("concrete-loft");
    let plan = best(&mut loft);
    let sides = plan
        .reasons
        .iter()
        .filter(|reason| matches!(reason.mark, Some((_, Surface::Left | Surface::Right))));
    let for_bounces = sides.filter(|reason| reason.purpose == seatward::advice::Purpose::Bounces);
    assert_eq!(for_bounces.count(), 0);
    let [_, Some(after_s)] = plan.middle_s else {
        panic!("no decay");
    };
    assert!((0.5..=0.75).contains(&after_s), "{after_s}");
}

#[test]
fn the_study_is_told_to_move_its_seat_and_to_take_foam_down_before_it_buys() {
    let mut study = adviser("square-study");
    let Found::Free { free } = answer(&mut study, Task::Free) else {
        panic!("nothing free");
    };
    for one in &free.moves {
        println!(
            "{:?} {:.1} m, {:.2} steps, bass {:?}",
            one.what, one.back_m, one.gained, one.bass_db
        );
    }
    let whats: Vec<Moved> = free.moves.iter().map(|one| one.what).collect();
    assert!(
        whats.contains(&Moved::Seat) && whats.contains(&Moved::Pieces),
        "{whats:?}"
    );
    let boom = free.boom.expect("a bass");
    println!("{boom:?}");
    let together_hz = boom.together_hz.expect("two lowest notes together");
    assert!((together_hz - 56.3).abs() < 0.5, "{together_hz}");
    // Panels do not fix it: the seat does more than all that could be bought.
    assert!(boom.now_db - boom.seat_db > 2.0 * (boom.now_db - boom.plan_db).max(0.0));
    let plan = best(&mut study);
    assert!(plan.price < 75.0, "{}", plan.price);
}

#[test]
fn surfaces_tell_what_a_quarter_after_the_other_buys() {
    let mut den = adviser("basement-den");
    for surface in [Surface::Right, Surface::Floor] {
        let Found::Surface { surface: found } = answer(&mut den, Task::Surface(surface)) else {
            panic!("no surface");
        };
        println!("{found:?}");
        if surface == Surface::Floor {
            assert!(found.kit.is_none() && found.covers.is_empty());
            continue;
        }
        let (low_s, high_s) = found.covers[1].range_s.expect("a range");
        let half_s = found.covers[1].middle_s.expect("a decay") - found.middle_s.expect("a decay");
        assert!(
            low_s < high_s && (low_s..=high_s).contains(&half_s),
            "{low_s}, {half_s}, {high_s}"
        );
        let times: Vec<f64> = found
            .covers
            .iter()
            .filter_map(|cover| cover.middle_s)
            .collect();
        assert!(times.windows(2).all(|pair| pair[1] <= pair[0]), "{times:?}");
    }
}
