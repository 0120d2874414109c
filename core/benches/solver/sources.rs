//! Speeds and torques of a train with several sources as exact sums, beside a dense floating-point solve in the same run; and what
//! the hardest files take.

use std::hint::black_box;
use std::time::Instant;

use levertrain_core::sources::{
    Efforts, Ports, RegionReport, SharesReport, Speeds, Stand, StandReport,
};
use levertrain_core::{Body, ElementSet, Train};
use nalgebra::DMatrix;
use serde_json::{Value, json};

use crate::worst;

/// How often each is timed; the fastest counts.
const TURNS: usize = 400;
/// The two agree to this part.
const SAME: f64 = 1e-9;

/// Prints what a scenario takes with everything released.
///
/// # Errors
/// The two do not agree.
pub fn report(name: &str, train: &Train) -> Result<(), String> {
    let (ports, _) = Ports::of(train);
    let given = [train.output(), train.input()];
    let torques = [ports.output(), 0];
    let exact = || {
        let speeds = Speeds::of(train, ElementSet::NONE, black_box(&given));
        let efforts = Efforts::of(train, ElementSet::NONE, &ports, black_box(&torques));
        (speeds, efforts)
    };
    let dense = || {
        (
            speeds(train, black_box(&given)),
            efforts(train, &ports, black_box(&torques)),
        )
    };
    let (own, (turns, pulls)) = (exact(), dense());
    let (turns, pulls) = (turns.ok_or("no speeds")?, pulls.ok_or("no torques")?);
    for shaft in 0..train.scenario().shafts.len() {
        for (at, factor) in own.0.shaft(shaft).unwrap_or_default().iter().enumerate() {
            close(factor.to_f64(), turns[(shaft, at)])?;
        }
    }
    for port in 0..ports.list.len() {
        for (at, factor) in own.1.port(port).iter().enumerate() {
            close(factor.to_f64(), pulls[(port, at)])?;
        }
    }
    let (mut fast, mut plain) = (f64::INFINITY, f64::INFINITY);
    for _ in 0..TURNS {
        fast = fast.min(timed(|| drop(black_box(exact()))));
        plain = plain.min(timed(|| drop(black_box(dense()))));
    }
    println!("\n| sources, {name} | exact sums | dense | ratio |\n| --- | --- | --- | --- |");
    println!(
        "| all speeds and torques | {:.1} µs | {:.1} µs | {:.2} |",
        fast * 1e6,
        plain * 1e6,
        plain / fast
    );
    Ok(())
}

/// Prints what the hardest files take, with as many further sources and outputs as a file may have.
///
/// # Errors
/// A scenario that does not read.
pub fn report_worst() -> Result<(), String> {
    println!(
        "\n| worst allowed, four further sources and outputs | freedom | stand | report | region | shares |"
    );
    println!("| --- |{}", " --- |".repeat(5));
    for worst in worst::files() {
        let mut scenario: Value =
            serde_json::from_str(&worst.text).map_err(|error| error.to_string())?;
        let ends = [&scenario["input"], &scenario["output"]].map(Clone::clone);
        let ids: Vec<Value> = scenario["shafts"]
            .as_array()
            .into_iter()
            .flatten()
            .map(|shaft| shaft["id"].clone())
            .filter(|id| !ends.contains(id))
            .collect();
        let further: Vec<Value> = ids
            .iter()
            .rev()
            .take(4)
            .map(|id| json!({"shaft": id}))
            .collect();
        let outputs: Vec<&Value> = ids.iter().take(4).collect();
        scenario["sources"] = json!({"further": further, "outputs": outputs});
        let train = Train::parse(&scenario.to_string())
            .map_err(|problems| format!("{}: {problems:?}", worst.name))?;
        let (ports, _) = Ports::of(&train);
        let mut stand = None;
        let making = timed(|| {
            stand = Some(Stand::of(&train, ElementSet::NONE, ports.clone(), 1000.0));
        });
        let stand = stand.ok_or("no stand")?;
        let telling = timed(|| drop(black_box(StandReport::of(&train, &stand))));
        let region = timed(|| drop(black_box(RegionReport::of(&train, &stand))));
        let shares = timed(|| drop(black_box(SharesReport::of(&train, &stand))));
        let times = [making, telling, region, shares].map(|time| format!("{:.1} ms", time * 1e3));
        println!(
            "| {} | {} | {} |",
            worst.name,
            stand.speeds().freedom(),
            times.join(" | ")
        );
    }
    Ok(())
}

fn timed(mut what: impl FnMut()) -> f64 {
    let start = Instant::now();
    what();
    start.elapsed().as_secs_f64()
}

fn close(exact: f64, dense: f64) -> Result<(), String> {
    match (exact - dense).abs() <= SAME * exact.abs().max(1.0) {
        true => Ok(()),
        false => Err(format!("{exact} exactly, {dense} by dense elimination")),
    }
}

/// Of every coupling its rows over all shafts.
fn mesh_rows(train: &Train) -> Vec<Vec<f64>> {
    let mut rows = Vec::new();
    for (index, coupling) in train.scenario().couplings.iter().enumerate() {
        for factors in coupling.facts().mesh_rows() {
            let mut row = vec![0.0; train.scenario().shafts.len()];
            for (body, factor) in train.members(index).iter().zip(&factors) {
                if let Body::Shaft(shaft) = body {
                    row[*shaft] += *factor as f64;
                }
            }
            rows.push(row);
        }
    }
    rows
}

/// Solves for all unknowns with some of them given, one after the other.
fn solved(mut rows: Vec<Vec<f64>>, unknowns: usize, given: &[usize]) -> Option<DMatrix<f64>> {
    let first = rows.len();
    for &unknown in given {
        let mut row = vec![0.0; unknowns];
        row[unknown] = 1.0;
        rows.push(row);
    }
    let matrix = DMatrix::from_fn(rows.len(), unknowns, |row, column| rows[row][column]);
    let sides = DMatrix::from_fn(rows.len(), given.len(), |row, column| {
        if row == first + column { 1.0 } else { 0.0 }
    });
    matrix.lu().solve(&sides)
}

fn speeds(train: &Train, given: &[usize]) -> Option<DMatrix<f64>> {
    solved(mesh_rows(train), train.scenario().shafts.len(), given)
}

/// The torques of the ports, which are the first unknowns.
fn efforts(train: &Train, ports: &Ports, given: &[usize]) -> Option<DMatrix<f64>> {
    let meshes = mesh_rows(train);
    let unknowns = ports.list.len() + meshes.len();
    let shafts = 0..train.scenario().shafts.len();
    let rows = shafts.map(|shaft| {
        let outside = ports
            .list
            .iter()
            .map(|port| f64::from(u8::from(port.shaft == shaft)));
        outside
            .chain(meshes.iter().map(|row| -row[shaft]))
            .collect()
    });
    solved(rows.collect(), unknowns, given)
}
