//! Laws, on engines, converters and loads drawn at random.

use levertrain_core::operating::Conditions;
use proptest::prelude::*;
use serde_json::{Value, json};

use crate::{Found, one_set, solved, train};

/// Sums of a few products keep some fourteen digits.
const BALANCED: f64 = 1e-12;

/// A load drawn at random, for laws.
fn anything() -> impl Strategy<Value = (Value, Conditions)> {
    let engine = (
        80.0..320.0_f64,
        80.0..320.0_f64,
        80.0..320.0_f64,
        -70.0..-5.0_f64,
    );
    let converter = (1.4..2.6_f64, 90.0..240.0_f64, 1.0..1.6_f64);
    let load = (0.0..300.0_f64, 0.0..0.04_f64, 0.0..6e-5_f64);
    let asked = (0.0..1.0_f64, -0.3..0.3_f64, any::<bool>(), 0.93..1.0_f64);
    (engine, converter, load, asked).prop_map(|((a, b, c, m), (tr, k, rise), (l0, l1, l2), asked)| {
        let scenario = {
            let mut scenario = one_set(
                json!([[1000, a], [2500, b], [5000, c]]),
                json!([[0, tr, k], [0.5, 1.0 + 0.5 * (tr - 1.0), k * rise], [0.85, 1, k * rise * 1.3]]),
                json!({"label": "L", "constant": l0, "linear": l1, "quadratic": l2, "weight": 1200}),
            );
            scenario["engine"]["motoring"] = json!([[1000, m], [5000, m]]);
            scenario
        };
        let (pedal, grade, lockup, mesh_efficiency) = asked;
        let conditions = Conditions {
            pedal,
            grade,
            lockup,
            mesh_efficiency,
        };
        (scenario, conditions)
    })
}

/// What the core finds, which it must.
fn found(scenario: &Value, conditions: &Conditions) -> Result<Found, TestCaseError> {
    train(scenario)
        .and_then(|train| solved(&train, &["B"], conditions))
        .map_err(|error| TestCaseError::fail(format!("{error:#}")))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// The engine's power is what arrives and what is lost, computed from speeds and torques,
    /// and the load takes what arrives.
    #[test]
    fn power_in_is_power_out_and_losses((scenario, conditions) in anything()) {
        let found = found(&scenario, &conditions)?;
        for point in found.points.iter().chain(&found.stall) {
            let watts = |speed: f64, torque: f64| speed * std::f64::consts::PI / 30.0 * torque;
            let engine = watts(point.engine_speed, point.engine_torque);
            // Converter: (1 − TR·SR) of what goes in; train: (1 + k·e)/(1 + k), e of two meshes.
            let converter = engine * (1.0 - point.torque_ratio * point.speed_ratio);
            let e = conditions.mesh_efficiency.powi(2);
            let through = engine - converter;
            let out = if engine >= 0.0 {
                through * (1.0 + 4.0 * e) / 5.0
            } else {
                through * (1.0 + 4.0 / e) / 5.0
            };
            let arrives = watts(point.output_speed, point.output_torque);
            let size = engine.abs();
            for (what, actual, expected) in [
                ("in", point.power_in(), engine),
                ("out", point.power_out(), arrives),
                ("arrives", arrives, out),
                ("converter", point.converter_loss(), converter),
                ("sum", point.power_in(), arrives + point.converter_loss() + point.gear_loss()),
            ] {
                prop_assert!(
                    (actual - expected).abs() <= BALANCED * size,
                    "{what}: {actual} is not {expected}: {point:?}"
                );
            }
            prop_assert!(point.converter_loss() >= -BALANCED * size);
            prop_assert!(point.gear_loss() >= -BALANCED * size);
        }
    }

    /// Every point satisfies the four equations it was solved from.
    #[test]
    fn a_point_is_where_all_curves_meet((scenario, conditions) in anything()) {
        let found = found(&scenario, &conditions)?;
        let number = |place: &str| scenario.pointer(place).and_then(Value::as_f64).unwrap_or(f64::NAN);
        let sine = conditions.grade.atan().sin();
        for point in &found.points {
            let n = point.output_speed;
            let load = number("/load/constant") + number("/load/weight") * sine
                + number("/load/linear") * n + number("/load/quadratic") * n * n;
            let size = load.abs() + 1.0;
            prop_assert!((point.output_torque - load).abs() <= 1e-9 * size, "{load}: {point:?}");
            if let Some(factor) = point.capacity_factor {
                let pump = (point.engine_speed / factor).powi(2);
                let size = point.engine_torque.abs();
                prop_assert!((pump - point.engine_torque).abs() <= 1e-9 * size, "{point:?}");
            }
            prop_assert!((1000.0..=5000.0).contains(&point.engine_speed));
            prop_assert!((0.0..=1.0).contains(&point.speed_ratio));
        }
    }

    /// Locked up, a converter is as good as none, and as one at speed ratio 1.
    #[test]
    fn locked_up_is_as_no_converter((scenario, conditions) in anything()) {
        let conditions = Conditions { lockup: true, ..conditions };
        let with = found(&scenario, &conditions)?;
        let mut bare = scenario;
        bare.as_object_mut().map(|fields| fields.remove("converter"));
        let without = found(&bare, &conditions)?;
        prop_assert_eq!(&with.points, &without.points);
        for point in &with.points {
            prop_assert_eq!((point.speed_ratio, point.torque_ratio), (1.0, 1.0));
            prop_assert_eq!(point.input_speed, point.engine_speed);
            prop_assert_eq!(point.input_torque, point.engine_torque);
        }
        prop_assert!(with.stall.is_none());
    }

    /// With more pedal an engine stalls no lower.
    #[test]
    fn more_pedal_raises_the_stall_speed((scenario, conditions) in anything(), more in 0.0..1.0_f64) {
        let at = |pedal: f64| {
            let conditions = Conditions { pedal, lockup: false, ..conditions };
            found(&scenario, &conditions).map(|found| found.stall.map(|point| point.engine_speed))
        };
        let pedal = conditions.pedal + more * (1.0 - conditions.pedal);
        if let (Some(less), Some(more)) = (at(conditions.pedal)?, at(pedal)?) {
            prop_assert!(more >= less * (1.0 - BALANCED), "{less} then {more}");
        }
    }
}
