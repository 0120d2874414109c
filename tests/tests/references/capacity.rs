//! Torque capacity of plate clutches.

use levertrain_core::Capacity;
use levertrain_core::scenario::Friction;

#[track_caller]
fn agrees(what: &str, actual: f64, expected: f64, digits: f64) {
    eprintln!("  {what:<40} actual {actual}, expected {expected}, tolerance {digits}");
    assert!(
        (actual - expected).abs() <= digits,
        "{what}: {actual}, expected {expected}"
    );
}

fn plates(surfaces: u32, outer: f64, inner: f64, coefficient: f64, force: f64) -> Capacity {
    Capacity::of(&Friction {
        surfaces,
        outer_radius: outer,
        inner_radius: inner,
        coefficient,
        clamp_force: force,
    })
}

/// Five plates with four pairs of faces, greatest pressure 0.127 N/mm², radii 125 and 75 mm,
/// μ = 0.3. [V] carrieradda 26527: F = 2990 N, 358.8 N·m, 18.8 kW at 500 rev/min. The source
/// rounds F; unrounded it is 2992.4 N and 359.08 N·m, and by uniform pressure with that force
/// 366.56 N·m ([D], recomputed with exact rationals).
#[test]
fn five_plates_with_four_pairs_of_faces() {
    let printed = plates(4, 125.0, 75.0, 0.3, 2990.0);
    agrees("T as printed", printed.uniform_wear, 358.8, 0.05);
    agrees("p as printed", printed.greatest_pressure, 0.127, 0.0005);
    let kilowatts = printed.uniform_wear * 500.0 * std::f64::consts::TAU / 60.0 / 1000.0;
    agrees("kW as printed", kilowatts, 18.8, 0.05);

    let exact = plates(4, 125.0, 75.0, 0.3, 2992.367);
    agrees(
        "p of the unrounded force",
        exact.greatest_pressure,
        0.127,
        1e-6,
    );
    agrees("T by uniform wear", exact.uniform_wear, 359.08, 0.005);
    agrees(
        "T by uniform pressure",
        exact.uniform_pressure,
        366.56,
        0.005,
    );
}

/// One pair of faces, diameters 200 and 100 mm, μ = 0.2, pressure up to 1 N/mm² ([M] V. B.
/// Bhandari, *Design of Machine Elements*, the first examples on plate clutches): by uniform
/// wear 15 707.96 N and 235.62 N·m, by uniform pressure 23 561.94 N and 366.52 N·m.
#[test]
fn one_pair_of_faces_both_ways() {
    let worn = plates(1, 100.0, 50.0, 0.2, 15_707.96);
    agrees("p at the inner edge", worn.greatest_pressure, 1.0, 1e-6);
    agrees("T by uniform wear", worn.uniform_wear, 235.62, 0.005);
    let new = plates(1, 100.0, 50.0, 0.2, 23_561.94);
    agrees("T by uniform pressure", new.uniform_pressure, 366.52, 0.005);
}
