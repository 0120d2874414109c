//! A shift in time with all its events, beside fixed small steps of a dense system, and beside SciPy, in the same run.

use std::hint::black_box;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Instant;

use levertrain_core::transient::{Dynamics, Plan, Shift, timings};
use levertrain_core::{Body, Train};
use nalgebra::{DMatrix, DVector};
use serde_json::{Value, json};

use crate::plain::PYTHON;
use crate::worst;

/// The baseline's step in seconds.
const STEP: f64 = 1e-4;
/// Below this slip in rad/s the baseline takes an element to hold if it can.
const BAND: f64 = 0.5;
/// Timings of a map, either way, and how far they are apart in seconds.
const COUNT: usize = 32;
const APART: f64 = 0.016;
/// How often each is timed; the fastest counts.
const TURNS: usize = 15;

/// Prints what the shifts between neighbouring ranges take.
///
/// # Errors
/// A shift that is refused, or whose end the two see apart.
pub fn report(name: &str, train: &Train) -> Result<(), String> {
    println!(
        "\n| shift, {name} | events | closed form | fixed steps of {STEP} s | ratio | solve_ivp | ratio |"
    );
    println!("| --- | --- | --- | --- | --- | --- | --- |");
    let (dynamics, _) = Dynamics::of(train);
    let ranges = train.scenario().ranges.len();
    for (from, to) in (1..ranges).map(|to| (to - 1, to)) {
        let plan = Plan::usual(train, &dynamics, train.range(from), train.range(to));
        let shift = reckoned(train, &dynamics, &plan)?;
        let steps = Steps::new(train, &dynamics, &plan, &shift);
        agree(train, &shift, &steps.run())?;
        let scipy = steps.scipy(&shift);
        if let Some((_, end)) = &scipy {
            agree(train, &shift, end)?;
        }
        let (mut exact, mut dense) = (f64::INFINITY, f64::INFINITY);
        for turn in 0..TURNS {
            exact = exact.min(timed(|| {
                drop(black_box(reckoned(train, &dynamics, black_box(&plan))));
            }));
            // One turn of the baseline takes as long as a thousand of the other.
            if turn < 3 {
                dense = dense.min(timed(|| {
                    black_box(steps.run());
                }));
            }
        }
        let label = |range: usize| &train.scenario().ranges[range].label;
        println!(
            "| {} to {} | {} | {:.1} µs | {:.1} ms | {:.0} | {} |",
            label(from),
            label(to),
            shift.pieces.len().saturating_sub(1),
            exact * 1e6,
            dense * 1e3,
            dense / exact,
            scipy.map_or_else(
                || "no Python |".to_owned(),
                |(taken, _)| format!("{:.1} ms | {:.0}", taken * 1e3, taken / exact)
            ),
        );
    }
    Ok(())
}

/// Prints what a shift of the hardest allowed takes, and a map of timings of it: that between the first two ranges that one leads between.
///
/// # Errors
/// A scenario that cannot be read.
pub fn report_worst() -> Result<(), String> {
    println!(
        "\n| worst allowed, a shift in time | what is assumed | commands that suit | shift | {} timings |",
        COUNT * COUNT
    );
    println!("| --- |{}", " --- |".repeat(4));
    for file in worst::files() {
        let train = Train::parse(&file.text).map_err(|problems| format!("{problems:?}"))?;
        let mut known = None;
        let assuming = timed(|| known = Some(Dynamics::of(&train).0));
        let dynamics = known.ok_or("no dynamics")?;
        let ranges = train.scenario().ranges.len();
        let pairs = (0..ranges).flat_map(|from| (0..ranges).map(move |to| (from, to)));
        let mut plans = pairs
            .filter(|(from, to)| from != to)
            .map(|(from, to)| Plan::usual(&train, &dynamics, train.range(from), train.range(to)))
            .filter(|plan| Shift::of(&train, &dynamics, plan.clone()).is_ok());
        let Some(plan) = plans.next() else {
            println!(
                "| {} | {:.1} ms | no shift | | |",
                file.name,
                assuming * 1e3
            );
            continue;
        };
        let suiting = timed(|| {
            drop(black_box(Plan::suited(
                &train, &dynamics, plan.from, plan.to,
            )))
        });
        let shift = timed(|| drop(black_box(reckoned(&train, &dynamics, black_box(&plan)))));
        let offsets: Vec<f64> = (0..COUNT).map(|at| at as f64 * APART).collect();
        let map = timed(|| {
            drop(black_box(timings(
                &train, &dynamics, &plan, &offsets, &offsets,
            )))
        });
        let times = [assuming, suiting, shift, map].map(|time| format!("{:.2} ms", time * 1e3));
        println!("| {} | {} |", file.name, times.join(" | "));
    }
    Ok(())
}

fn reckoned(train: &Train, dynamics: &Dynamics, plan: &Plan) -> Result<Shift, String> {
    Shift::of(train, dynamics, plan.clone()).map_err(|refusal| format!("{refusal:?}"))
}

fn timed(mut what: impl FnMut()) -> f64 {
    let start = Instant::now();
    what();
    start.elapsed().as_secs_f64()
}

/// Both must tell of the same motion, as far as small steps can tell.
fn agree(train: &Train, shift: &Shift, end: &DVector<f64>) -> Result<(), String> {
    let last = shift.pieces.last().ok_or("a shift without a piece")?;
    for shaft in [train.input(), train.output()] {
        let (exact, dense) = (last.shaft_speed(shaft, last.length), end[shaft]);
        if (exact - dense).abs() > 0.02 * exact.abs().max(10.0) {
            return Err(format!(
                "shaft {shaft} ends at {exact}, by small steps {dense}"
            ));
        }
    }
    Ok(())
}

/// The plain way: at every step the whole system of masses, meshes and what holds is solved anew.
struct Steps<'a> {
    train: &'a Train,
    plan: &'a Plan,
    start: DVector<f64>,
    masses: Vec<f64>,
    meshes: Vec<Vec<f64>>,
    slips: Vec<Vec<f64>>,
    /// Of each element its capacity at each step.
    capacities: Vec<Vec<f64>>,
}

impl<'a> Steps<'a> {
    fn new(train: &'a Train, dynamics: &Dynamics, plan: &'a Plan, shift: &Shift) -> Self {
        let count = train.scenario().shafts.len();
        let mut masses: Vec<f64> = (0..count).map(|x| dynamics.shaft(x).value).collect();
        masses[train.input()] += dynamics.engine_inertia().value;
        masses[train.output()] += dynamics.load_inertia().value;
        let mut meshes = Vec::new();
        for (index, coupling) in train.scenario().couplings.iter().enumerate() {
            for factors in coupling.facts().mesh_rows() {
                let mut row = vec![0.0; count];
                for (body, factor) in train.members(index).iter().zip(&factors) {
                    if let Body::Shaft(shaft) = body {
                        row[*shaft] += *factor as f64;
                    }
                }
                meshes.push(row);
            }
        }
        let elements = train.scenario().elements.len();
        let slips = (0..elements)
            .map(|element| {
                let mut row = vec![0.0; count];
                for (body, sign) in train.ends(element).into_iter().zip([1.0, -1.0]) {
                    if let Body::Shaft(shaft) = body {
                        row[shaft] += sign;
                    }
                }
                row
            })
            .collect();
        let steps = (plan.until / STEP) as usize;
        let capacity = |element: usize, step: usize| {
            let at = shift.at((step as f64 + 0.5) * STEP);
            at.map_or(0.0, |(piece, later)| piece.capacities[element].after(later))
        };
        let first = &shift.pieces[0];
        Self {
            train,
            plan,
            start: DVector::from_fn(count, |shaft, _| first.shaft_speed(shaft, 0.0)),
            masses,
            meshes,
            slips,
            capacities: (0..elements)
                .map(|element| (0..steps).map(|step| capacity(element, step)).collect())
                .collect(),
        }
    }

    fn run(&self) -> DVector<f64> {
        let mut speeds = self.start.clone();
        for step in 0..self.capacities.first().map_or(0, Vec::len) {
            speeds += self.rates(&speeds, step) * STEP;
        }
        speeds
    }

    /// Seconds that SciPy takes, with friction made smooth within the same band, and how it ends; nothing without a Python.
    fn scipy(&self, shift: &Shift) -> Option<(f64, DVector<f64>)> {
        let course = |element: usize| -> Vec<[f64; 2]> {
            let pieces = shift.pieces.iter();
            pieces
                .flat_map(|piece| {
                    [0.0, piece.length].map(|later| {
                        let most = piece.capacities[element].after(later);
                        [piece.begin + later, most]
                    })
                })
                .collect()
        };
        let mut torques = vec![0.0; self.masses.len()];
        torques[self.train.input()] += self.plan.input_torque;
        torques[self.train.output()] += self.plan.output_torque;
        let task = json!({
            "masses": self.masses,
            "meshes": self.meshes,
            "slips": self.slips,
            "capacities": (0..self.slips.len()).map(course).collect::<Vec<_>>(),
            "torques": torques,
            "start": self.start.iter().copied().collect::<Vec<f64>>(),
            "until": self.plan.until,
            "band": BAND,
        });
        let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("benches/solver/shift.py");
        let mut child = Command::new(std::env::var_os(PYTHON)?)
            .arg(script)
            // One thread, as the others have.
            .envs(["OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS"].map(|name| (name, "1")))
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .ok()?;
        let mut input = child.stdin.take()?;
        input.write_all(task.to_string().as_bytes()).ok()?;
        drop(input);
        let output = child.wait_with_output().ok()?;
        let found: Value = serde_json::from_slice(&output.stdout).ok()?;
        let end: Option<Vec<f64>> = found["end"].as_array()?.iter().map(Value::as_f64).collect();
        Some((found["seconds"].as_f64()?, DVector::from_vec(end?)))
    }

    /// Accelerations: what hardly slips is taken to hold, and what then carries too much to slip.
    fn rates(&self, speeds: &DVector<f64>, step: usize) -> DVector<f64> {
        let slip = |element: usize| -> f64 {
            let row = self.slips[element].iter();
            row.zip(speeds.iter())
                .map(|(factor, speed)| factor * speed)
                .sum()
        };
        let mut torques: Vec<Option<f64>> = (0..self.slips.len())
            .map(|element| {
                let (most, slip) = (self.capacities[element][step], slip(element));
                match slip.abs() < BAND && most > 0.0 {
                    true => None,
                    false => Some(most * slip.signum()),
                }
            })
            .collect();
        loop {
            let (rates, held) = self.solved(&torques, &slip);
            let beyond = held
                .iter()
                .find(|(element, torque)| torque.abs() > self.capacities[*element][step]);
            let Some(&(element, torque)) = beyond else {
                return rates;
            };
            torques[element] = Some(self.capacities[element][step] * torque.signum());
        }
    }

    fn solved(
        &self,
        torques: &[Option<f64>],
        slip: &dyn Fn(usize) -> f64,
    ) -> (DVector<f64>, Vec<(usize, f64)>) {
        let count = self.masses.len();
        let held: Vec<usize> = (0..torques.len())
            .filter(|&x| torques[x].is_none())
            .collect();
        let rows: Vec<(&Vec<f64>, f64)> = self
            .meshes
            .iter()
            .map(|row| (row, 0.0))
            // What slip is left is taken away within some steps.
            .chain(
                held.iter()
                    .map(|&x| (&self.slips[x], -slip(x) / (20.0 * STEP))),
            )
            .collect();
        let size = count + rows.len();
        let mut matrix = DMatrix::zeros(size, size);
        let mut right = DVector::zeros(size);
        for (shaft, mass) in self.masses.iter().enumerate() {
            matrix[(shaft, shaft)] = *mass;
        }
        for (index, (row, wanted)) in rows.iter().enumerate() {
            for (shaft, factor) in row.iter().enumerate() {
                matrix[(shaft, count + index)] = *factor;
                matrix[(count + index, shaft)] = *factor;
            }
            right[count + index] = *wanted;
        }
        right[self.train.input()] += self.plan.input_torque;
        right[self.train.output()] += self.plan.output_torque;
        for (element, torque) in torques.iter().enumerate() {
            for (shaft, factor) in self.slips[element].iter().enumerate() {
                right[shaft] -= factor * torque.unwrap_or(0.0);
            }
        }
        let solution = matrix.lu().solve(&right).unwrap_or(right);
        let carried = |(index, &element): (usize, &usize)| {
            (element, solution[count + self.meshes.len() + index])
        };
        let held = held.iter().enumerate().map(carried).collect();
        (solution.rows(0, count).into_owned(), held)
    }
}
