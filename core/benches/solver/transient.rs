//! A shift in time with all its events, beside fixed small steps of a dense system in the same run.

use std::hint::black_box;
use std::time::Instant;

use levertrain_core::transient::{Dynamics, Plan, Shift};
use levertrain_core::{Body, Train};
use nalgebra::{DMatrix, DVector};

/// The baseline's step in seconds.
const STEP: f64 = 1e-4;
/// Below this slip in rad/s the baseline takes an element to hold if it can.
const BAND: f64 = 0.5;
/// How often each is timed; the fastest counts.
const TURNS: usize = 15;

/// Prints what the shifts between neighbouring ranges take.
///
/// # Errors
/// A shift that is refused, or whose end the two see apart.
pub fn report(name: &str, train: &Train) -> Result<(), String> {
    println!("\n| shift, {name} | events | closed form | fixed steps of {STEP} s | ratio |");
    println!("| --- | --- | --- | --- | --- |");
    let (dynamics, _) = Dynamics::of(train);
    let ranges = train.scenario().ranges.len();
    for (from, to) in (1..ranges).map(|to| (to - 1, to)) {
        let plan = Plan::usual(train, &dynamics, train.range(from), train.range(to));
        let shift = reckoned(train, &dynamics, &plan)?;
        let steps = Steps::new(train, &dynamics, &plan, &shift);
        agree(train, &shift, &steps.run())?;
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
            "| {} to {} | {} | {:.1} µs | {:.1} ms | {:.0} |",
            label(from),
            label(to),
            shift.pieces.len().saturating_sub(1),
            exact * 1e6,
            dense * 1e3,
            dense / exact,
        );
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
