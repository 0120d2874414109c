//! Checks of the engine, the torque converter and the load.

use super::Checker;
use crate::base::problem::Problem;
use crate::model::curve::Piece;
use crate::model::scenario::{Converter, Engine, Load, limits};

/// Rounding allowed where a torque ratio is compared with the most its power lets it be.
const ROUNDING: f64 = 1e-9;

impl Checker<'_> {
    /// The engine, the converter and the load, and that none of them lacks the others.
    pub(crate) fn surroundings(&mut self) {
        let scenario = self.scenario;
        let given = [
            ("engine", scenario.engine.is_some()),
            ("load", scenario.load.is_some()),
        ];
        let any = scenario.converter.is_some() || given.iter().any(|(_, given)| *given);
        for (name, _) in given.iter().filter(|(_, given)| any && !given) {
            self.note(
                name,
                ("problem-missing-part", &[("what", name)]),
                "fix-missing-part",
            );
        }
        if let Some(engine) = &scenario.engine {
            self.engine(engine);
        }
        if let Some(converter) = &scenario.converter {
            self.converter(converter);
        }
        if let Some(load) = &scenario.load {
            self.load(load);
        }
    }

    fn engine(&mut self, engine: &Engine) {
        self.text("engine.label", &engine.label, 1, limits::LABEL_CHARS);
        let most = limits::TORQUE_MAX;
        let before = self.problems.len();
        for (name, curve, highest) in [
            ("engine.full", &engine.full, most),
            ("engine.motoring", &engine.motoring, 0.0),
        ] {
            self.points(name, curve.len());
            for (index, &[speed, torque]) in curve.iter().enumerate() {
                let [least, greatest] = [limits::ENGINE_SPEED_MIN, limits::ENGINE_SPEED_MAX];
                self.within(&format!("{name}[{index}][0]"), speed, least, greatest);
                self.within(&format!("{name}[{index}][1]"), torque, -most, highest);
            }
            let speeds: Vec<f64> = curve.iter().map(|point| point[0]).collect();
            self.rising(name, &speeds);
        }
        let ends = |curve: &[[f64; 2]]| Some((curve.first()?[0], curve.last()?[0]));
        if self.problems.len() > before {
            return;
        }
        if ends(&engine.full) != ends(&engine.motoring) {
            self.note(
                "engine.motoring",
                ("problem-other-speeds", &[]),
                "fix-other-speeds",
            );
            return;
        }
        let full = engine.curve(1.0);
        let crossing = engine.curve(0.0).knots().find(|&[speed, motoring]| {
            // At this speed full pedal gives no more torque than none.
            full.value(speed) <= motoring
        });
        if let Some([speed, _]) = crossing {
            self.note(
                "engine.motoring",
                ("problem-not-below-full", &[("speed", &speed.to_string())]),
                "fix-not-below-full",
            );
        }
    }

    fn converter(&mut self, converter: &Converter) {
        self.text("converter.label", &converter.label, 1, limits::LABEL_CHARS);
        let name = "converter.table";
        self.points(name, converter.table.len());
        let before = self.problems.len();
        for (index, &[speed_ratio, torque_ratio, factor]) in converter.table.iter().enumerate() {
            let place = |column: usize| format!("{name}[{index}][{column}]");
            if !(0.0..1.0).contains(&speed_ratio) {
                self.note(
                    &place(0),
                    (
                        "problem-speed-ratio",
                        &[("found", &speed_ratio.to_string())],
                    ),
                    "fix-speed-ratio",
                );
            }
            self.within(&place(1), torque_ratio, 1.0, limits::TORQUE_RATIO_MAX);
            let [least, most] = [limits::CAPACITY_FACTOR_MIN, limits::CAPACITY_FACTOR_MAX];
            self.within(&place(2), factor, least, most);
        }
        let speed_ratios: Vec<f64> = converter.table.iter().map(|point| point[0]).collect();
        self.rising(name, &speed_ratios);
        if speed_ratios.first().is_some_and(|first| *first != 0.0) {
            let place = format!("{name}[0][0]");
            self.note(&place, ("problem-no-stall", &[]), "fix-no-stall");
        }
        if self.problems.len() > before {
            return;
        }
        // Power out over power in is torque ratio times speed ratio, at most 1 between points too.
        for (index, Piece { from, to, slope }) in converter.torque_ratio().pieces().enumerate() {
            let product = |s: f64| s * (from[1] + slope * (s - from[0]));
            // The product's vertex, where it lies inside.
            let vertex = (slope * from[0] - from[1]) / (2.0 * slope);
            let inside = (slope < 0.0).then_some(vertex.clamp(from[0], to[0]));
            let greatest = [from[0], to[0]].into_iter().chain(inside).map(product);
            if greatest.fold(0.0, f64::max) > 1.0 + ROUNDING {
                let place = format!("{name}[{index}][1]");
                self.note(&place, ("problem-more-power", &[]), "fix-more-power");
                return;
            }
        }
    }

    fn load(&mut self, load: &Load) {
        self.text("load.label", &load.label, 1, limits::LABEL_CHARS);
        for (name, value) in [
            ("load.constant", load.constant),
            ("load.linear", load.linear),
            ("load.quadratic", load.quadratic),
            ("load.weight", load.weight),
        ] {
            self.within(name, value, 0.0, limits::TORQUE_MAX);
        }
    }

    fn points(&mut self, name: &str, count: usize) {
        let allowed = [limits::POINTS_MIN, limits::POINTS_MAX];
        self.count(name, "problem-points", count, allowed);
    }

    fn within(&mut self, place: &str, value: f64, least: f64, most: f64) {
        if !(least..=most).contains(&value) {
            let problem = Problem::out_of_range(place, "problem-not-allowed", value, least, most);
            self.problems.push(problem);
        }
    }

    fn rising(&mut self, name: &str, values: &[f64]) {
        let pairs = values.iter().zip(values.iter().skip(1)).enumerate();
        let fallen = pairs.filter(|(_, (earlier, later))| later <= earlier);
        for (index, (earlier, later)) in fallen.collect::<Vec<_>>() {
            let (earlier, later) = (earlier.to_string(), later.to_string());
            self.note(
                &format!("{name}[{}][0]", index + 1),
                (
                    "problem-not-rising",
                    &[("later", &later), ("earlier", &earlier)],
                ),
                "fix-rising",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::train::Train;

    const GOOD: &str = r#"{"format": 1, "name": "T", "input": "a", "output": "b",
        "shafts": [{"id": "a", "label": "A"}, {"id": "b", "label": "B"}],
        "couplings": [{"kind": "gear-pair", "id": "g", "label": "G", "mesh": "external",
          "first": {"shaft": "a", "teeth": 20}, "second": {"shaft": "b", "teeth": 40}}],
        "engine": {"label": "E", "full": [[800, 140], [6000, 160]],
                   "motoring": [[800, -18], [6000, -60]]},
        "converter": {"label": "C", "table": [[0, 2, 140], [0.9, 1, 190]]},
        "load": {"label": "L", "constant": 15, "linear": 0, "quadratic": 0.000003, "weight": 1260}
        }"#;

    /// Replaces a part of the good file and looks for one problem.
    #[track_caller]
    fn check(from: &str, to: &str, expected: &str) {
        assert_eq!(GOOD.matches(from).count(), 1, "{from}");
        let problems = Train::parse(&GOOD.replace(from, to)).err();
        let problems: Vec<String> = problems.iter().flatten().map(ToString::to_string).collect();
        assert!(
            problems.iter().any(|problem| problem.starts_with(expected)),
            "expected {expected}, found {problems:#?}"
        );
    }

    #[test]
    fn the_good_one_is_good() {
        assert!(Train::parse(GOOD).is_ok());
    }

    #[test]
    fn problems_say_where_and_what() {
        check("\"load\":", "\"lode\":", "lode: unknown field");
        check(
            "\"label\": \"E\",",
            "",
            "engine: missing field `label`; add it",
        );
        check(
            "\"weight\"",
            "\"wheight\"",
            "load.wheight: unknown field `wheight`",
        );
        check(
            "[800, 140]",
            "[800]",
            "engine.full[0]: not a row of 2, but of 1",
        );
        check(
            "[800, 140]",
            "[800, \"x\"]",
            "engine.full[0][1]: not a number: \"x\"",
        );
        check(
            "[800, 140]",
            "[7000, 140]",
            "engine.full[1][0]: 6000 does not come after 7000",
        );
        check(
            "[800, 140]",
            "[900, 140]",
            "engine.motoring: it does not begin and end",
        );
        check(
            "[800, 140]",
            "[800, -18]",
            "engine.motoring: at 800 rev/min it is not below",
        );
        check(
            "[6000, -60]",
            "[6000, 60]",
            "engine.motoring[1][1]: 60 is not allowed there",
        );
        check(
            "[0, 2, 140]",
            "[0.1, 2, 140]",
            "converter.table[0][0]: it does not begin at stall",
        );
        check(
            "[0.9, 1, 190]",
            "[1, 1, 190]",
            "converter.table[1][0]: 1 is not a speed ratio",
        );
        check(
            "[0.9, 1, 190]",
            "[0.9, 1.2, 190]",
            "converter.table[0][1]: from there on more power",
        );
        // 1 at the ends, but 2.2·0.45 and more between them.
        check(
            "[0, 2, 140]",
            "[0, 3.5, 140]",
            "converter.table[0][1]: from there on more power",
        );
        check(
            "[0.9, 1, 190]",
            "[0.9, 1, 0]",
            "converter.table[1][2]: 0 is not allowed there",
        );
        check(
            "1260",
            "-1",
            "load.weight: -1 is not allowed there; use 0 to 100000",
        );
        check("1260", "true", "load.weight: not a number");
    }

    #[test]
    fn none_goes_without_the_others() {
        let from = GOOD.find("\"engine\"").unwrap_or(0);
        let to = GOOD.find("\"converter\"").unwrap_or(0);
        let text = GOOD.replace(&GOOD[from..to], "");
        let problems = Train::parse(&text).err().unwrap_or_default();
        assert_eq!(problems.len(), 1, "{problems:#?}");
        assert_eq!(problems[0].place, "engine");
    }
}
