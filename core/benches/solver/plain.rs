//! The plain way to find teeth: for each candidate and range all speed equations are solved anew, in floating point.

use std::hint::black_box;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Instant;

use levertrain_core::{Body, Duty, Train};
use nalgebra::{DMatrix, DVector};
use serde_json::{Value, json};

/// Candidates that are tried; it would take years for all.
const COUNT: u32 = 20_000;
/// Names the Python that has NumPy.
pub const PYTHON: &str = "LEVERTRAIN_PYTHON";

/// The speed equations of a range: those of the sets, one for each applied element, and the input's.
struct Equations {
    matrix: DMatrix<f64>,
    right: DVector<f64>,
    /// Which coefficients are other ones for each candidate.
    teeth: Vec<(usize, usize)>,
}

/// Those of all ranges of a train.
pub struct Plain(Vec<Equations>);

impl Plain {
    pub fn of(train: &Train) -> Self {
        let ranges = 0..train.scenario().ranges.len();
        Self(ranges.map(|range| equations(train, range)).collect())
    }

    /// Candidates a second of a loop through LU.
    pub fn nalgebra(&self) -> f64 {
        let start = Instant::now();
        for candidate in 0..COUNT {
            for Equations {
                matrix,
                right,
                teeth,
            } in &self.0
            {
                let mut matrix = matrix.clone();
                for &at in teeth {
                    matrix[at] += f64::from(candidate % 7);
                }
                black_box(matrix.lu().solve(right));
            }
        }
        f64::from(COUNT) / start.elapsed().as_secs_f64()
    }

    /// The same of NumPy, which solves all candidates of a range in one call; nothing without a Python.
    pub fn numpy(&self) -> Option<f64> {
        let python = std::env::var_os(PYTHON)?;
        let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("benches/solver/plain.py");
        let mut child = Command::new(python)
            .arg(script)
            // One thread, as the others have.
            .envs(["OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS"].map(|name| (name, "1")))
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .ok()?;
        let ranges = self.0.iter().map(|range| {
            let rows = range.matrix.row_iter();
            let matrix = rows.map(|row| row.iter().copied().collect::<Vec<f64>>());
            json!({
                "matrix": matrix.collect::<Vec<_>>(),
                "right": range.right.iter().copied().collect::<Vec<f64>>(),
                "teeth": range.teeth,
            })
        });
        let task = json!({"count": COUNT, "ranges": ranges.collect::<Vec<Value>>()});
        child
            .stdin
            .take()?
            .write_all(task.to_string().as_bytes())
            .ok()?;
        let output = child.wait_with_output().ok()?;
        String::from_utf8(output.stdout).ok()?.trim().parse().ok()
    }
}

fn equations(train: &Train, range: usize) -> Equations {
    let shafts = train.scenario().shafts.len();
    let settled = train.settle(train.range(range), Duty::Drive).combination;
    let couplings = train.scenario().couplings.iter();
    let rows: Vec<Vec<i64>> = couplings.flat_map(|set| set.facts().mesh_rows()).collect();
    let mut matrix = DMatrix::<f64>::zeros(shafts, shafts);
    let mut right = DVector::<f64>::zeros(shafts);
    let mut teeth = Vec::new();
    for (at, row) in rows.iter().enumerate() {
        for (member, coefficient) in train.members(at).iter().zip(row) {
            if let Body::Shaft(shaft) = member {
                matrix[(at, *shaft)] += *coefficient as f64;
                teeth.push((at, *shaft));
            }
        }
    }
    let applied = settled.applied();
    let elements = applied.iter().take(shafts - rows.len() - 1);
    for (at, element) in elements.enumerate() {
        for (body, sign) in train.ends(element).iter().zip([1.0, -1.0]) {
            if let Body::Shaft(shaft) = body {
                matrix[(rows.len() + at, *shaft)] += sign;
            }
        }
    }
    matrix[(shafts - 1, train.input())] = 1.0;
    right[shafts - 1] = 1.0;
    Equations {
        matrix,
        right,
        teeth,
    }
}
