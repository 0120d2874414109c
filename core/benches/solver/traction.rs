//! A train on the road beside the plain way in the same run: a grid of engine speeds for every force, and fixed small steps over
//! time for the run from rest.

use std::hint::black_box;
use std::time::Instant;

use levertrain_core::Duty;
use levertrain_core::traction::{Ask, Rule, Run, Traction};
use levertrain_core::{LossModel, Lossy, MESH_EFFICIENCY, Train};
use nalgebra::DVector;
use serde_json::{Value, json};

use crate::worst;

/// The baseline's step in seconds, the points of its curves, and the engine speeds that it tries for each.
const STEP: f64 = 1e-3;
const POINTS: usize = 200;
const TRIED: usize = 400;
/// How often each is timed; the fastest counts.
const TURNS: usize = 15;
const RADIANS: f64 = std::f64::consts::PI / 30.0;

/// Prints what diagram and run of a train take.
///
/// # Errors
/// A train without a road, or one whose run the two see apart.
pub fn report(name: &str, train: &Train) -> Result<(), String> {
    let asked = ask();
    let found = reckoned(train, &asked)?;
    let run = found.run.as_ref().map_err(|why| format!("{why:?}"))?;
    let plain = Plain::new(train, &found).ok_or("no road")?;
    agree(run, &plain.run(run))?;
    let exact = fastest(TURNS, || {
        drop(black_box(reckoned(train, black_box(&asked))))
    });
    let dense = fastest(3, || {
        black_box(plain.curves());
        black_box(plain.run(run));
    });
    println!("\n| on the road | stretches and integrals | grid and steps of {STEP} s | ratio |");
    println!("| --- | --- | --- | --- |");
    println!(
        "| {name}: curves of all ranges and the run from rest | {:.2} ms | {:.1} ms | {:.0} |",
        exact * 1e3,
        dense * 1e3,
        dense / exact
    );
    Ok(())
}

/// Prints what the hardest allowed take, each with tables of as many points as there may be, up and down.
///
/// # Errors
/// A scenario that cannot be read.
pub fn report_worst() -> Result<(), String> {
    println!(
        "\n| worst allowed, on the road, tables of 32 points | ranges that pull | curves and run |"
    );
    println!("| --- | --- | --- |");
    let asked = ask();
    for file in worst::files() {
        let train = on_a_road(&file.text)?;
        if train.scenario().ranges.is_empty() {
            continue;
        }
        let found = reckoned(&train, &asked)?;
        let taken = fastest(3, || drop(black_box(reckoned(&train, black_box(&asked)))));
        let (name, pulls) = (file.name, found.pulls.len());
        println!("| {name} | {pulls} | {:.1} ms |", taken * 1e3);
    }
    Ok(())
}

/// A train with an engine, a converter and a load.
fn on_a_road(text: &str) -> Result<Train, String> {
    let mut scenario: Value = serde_json::from_str(text).map_err(|error| error.to_string())?;
    let full: Vec<[f64; 2]> = (0..32_u32)
        .map(|x| {
            [
                800.0 + 200.0 * f64::from(x),
                if x % 2 == 0 { 150.0 } else { 190.0 },
            ]
        })
        .collect();
    let table: Vec<[f64; 3]> = (0..32_u32)
        .map(|x| {
            let ratio = f64::from(x) / 32.5;
            [
                ratio,
                (2.0 - ratio).min(0.95 / ratio.max(0.1)).max(1.0),
                if x % 2 == 0 { 140.0 } else { 150.0 },
            ]
        })
        .collect();
    scenario["engine"] =
        json!({"label": "Engine", "full": full, "motoring": [[800, -20], [7000, -60]]});
    scenario["converter"] = json!({"label": "Converter", "table": table});
    scenario["load"] =
        json!({"label": "Road", "constant": 1e-9, "linear": 0, "quadratic": 1e-12, "weight": 1000});
    Train::parse(&scenario.to_string()).map_err(|problems| format!("{problems:?}"))
}

fn ask() -> Ask {
    Ask {
        mesh_efficiency: MESH_EFFICIENCY,
        locked_from: None,
        rule: Rule::Force,
        targets: (1..20).map(|x| f64::from(x) * 20.0 / 3.6).collect(),
    }
}

fn reckoned(train: &Train, ask: &Ask) -> Result<Traction, String> {
    Traction::of(train, ask).map_err(|missing| format!("{missing:?}"))
}

fn fastest(turns: usize, mut what: impl FnMut()) -> f64 {
    let timed = (0..turns).map(|_| {
        let start = Instant::now();
        what();
        start.elapsed().as_secs_f64()
    });
    timed.fold(f64::INFINITY, f64::min)
}

/// Both must tell of the same run, as far as a grid and small steps can tell.
fn agree(run: &Run, plain: &[f64]) -> Result<(), String> {
    for (target, time) in run.targets.iter().zip(plain) {
        if (target.time - time).abs() > 0.03 * target.time + 0.02 {
            return Err(format!(
                "{} m/s at {} s, by small steps {time}",
                target.speed, target.time
            ));
        }
    }
    Ok(())
}

/// The plain way: every force anew, by trying engine speeds.
struct Plain {
    full: Vec<[f64; 2]>,
    table: Vec<[f64; 3]>,
    /// Of each forward range by falling ratio: its ratio, efficiency, and mass in kg.
    ranges: Vec<[f64; 3]>,
    lever: f64,
    road: [f64; 3],
}

impl Plain {
    fn new(train: &Train, found: &Traction) -> Option<Self> {
        let scenario = train.scenario();
        let lever = found.vehicle.lever();
        let ranges = found.order.iter().map(|&at| {
            let pull = &found.pulls[at];
            let combination = train
                .settle(train.range(pull.range), Duty::Drive)
                .combination;
            let model = LossModel {
                mesh_efficiency: MESH_EFFICIENCY,
                drag: 0.0,
                coasting: false,
            };
            let efficiency = match Lossy::of(&combination, &model) {
                Some(Lossy::Drives(torques)) => torques.efficiency,
                _ => f64::NAN,
            };
            let speeds = (0..scenario.shafts.len())
                .map(|x| combination.shaft_speed(x).map_or(0.0, |x| x.to_f64()));
            let speeds = DVector::from_iterator(scenario.shafts.len(), speeds);
            let inertias =
                DVector::from_fn(scenario.shafts.len(), |x, _| found.inertias.shaft(x).value);
            let turns = speeds.map(|x| (x / speeds[train.output()]).powi(2));
            let input = turns[train.input()] * inertias[train.input()];
            let all =
                inertias.dot(&turns) - input * (1.0 - efficiency) + found.vehicle.inertia.value;
            [pull.ratio, efficiency, all / (lever * lever)]
        });
        let load = scenario.load.as_ref()?;
        Some(Self {
            full: scenario.engine.as_ref()?.full.clone(),
            table: scenario.converter.as_ref()?.table.clone(),
            ranges: ranges.collect(),
            lever,
            road: [load.constant, load.linear, load.quadratic],
        })
    }

    fn force(&self, [ratio, efficiency, _]: [f64; 3], speed: f64) -> Option<f64> {
        let input = speed / self.lever / RADIANS * ratio;
        let (first, last) = (self.full.first()?[0].max(input), self.full.last()?[0]);
        let curve = |x: f64| between(self.full.iter().copied(), x);
        let capacity = |s: f64| {
            between(
                self.table
                    .iter()
                    .map(|x| [x[0], x[2].powi(-2)])
                    .chain([[1.0, 0.0]]),
                s,
            )
        };
        let at = |step: usize| first + (last - first) * step as f64 / TRIED as f64;
        let left = |speed: f64| curve(speed) - capacity(input / speed) * speed * speed;
        let step = (0..TRIED).find(|&step| left(at(step)) >= 0.0 && left(at(step + 1)) < 0.0)?;
        let (a, b) = (left(at(step)), left(at(step + 1)));
        let engine = at(step) + (at(step + 1) - at(step)) * a / (a - b);
        let ratios = self.table.iter().map(|x| [x[0], x[1]]).chain([[1.0, 1.0]]);
        Some(between(ratios, input / engine) * curve(engine) * ratio * efficiency / self.lever)
    }

    fn level(&self, speed: f64) -> f64 {
        let output = speed / self.lever / RADIANS;
        (self.road[0] + output * (self.road[1] + output * self.road[2])) / self.lever
    }

    fn curves(&self) -> Vec<Option<f64>> {
        let points = self.ranges.iter().flat_map(|&range| {
            let last = self.full.last().map_or(0.0, |x| x[0]) * RADIANS * self.lever / range[0];
            (0..POINTS).map(move |point| (range, last * point as f64 / POINTS as f64))
        });
        points
            .map(|(range, speed)| self.force(range, speed))
            .collect()
    }

    /// The times of the targets, shifting where the other run does.
    fn run(&self, run: &Run) -> Vec<f64> {
        let (mut speed, mut time, mut times) = (0.0, 0.0, Vec::new());
        let mut range = 0;
        let end = run.targets.last().map_or(0.0, |target| target.speed);
        while speed < end && time < 1000.0 {
            if run
                .changes
                .get(range)
                .is_some_and(|change| speed >= change.at.speed)
            {
                range += 1;
            }
            let Some(force) = self.force(self.ranges[range], speed) else {
                range += 1;
                continue;
            };
            speed += (force - self.level(speed)) / self.ranges[range][2] * STEP;
            time += STEP;
            if run
                .targets
                .get(times.len())
                .is_some_and(|target| speed >= target.speed)
            {
                times.push(time);
            }
        }
        times
    }
}

/// A line through points.
fn between(points: impl Iterator<Item = [f64; 2]> + Clone, x: f64) -> f64 {
    let pairs = points.clone().zip(points.skip(1));
    let mut value = f64::NAN;
    for (from, to) in pairs {
        value = from[1] + (to[1] - from[1]) * (x - from[0]) / (to[0] - from[0]);
        if x <= to[0] {
            break;
        }
    }
    value
}
