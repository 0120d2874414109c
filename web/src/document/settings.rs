//! What is assumed and how it is shown: everything that is set and stays set, whatever train is open.

use levertrain_core::json::{Read, Value, one_of, read_fields, strict};
use levertrain_core::operating::Conditions;
use levertrain_core::{LossModel, Problem};

use crate::draw::Palette;
use crate::units::speed_unit::SpeedUnit;
use crate::units::torque_unit::TorqueUnit;

/// The slip in rev/min that the drag of open elements is told at.
const DRAG_SLIP: f64 = 1000.0;
/// Canvas pixels to a CSS pixel: with fewer nothing can be made out, more cannot be seen and fill
/// the memory.
const LEAST_SCALE: f64 = 0.01;
const MOST_SCALE: f64 = 8.0;
/// How many times the full rate of turning there may be.
const MOST_RATE: f64 = 4.0;

/// Everything that is set and stays set.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct Settings {
    /// The colours.
    #[cfg_attr(
        feature = "types",
        ts(type = "\"light\" | \"dark\" | \"contrast\" | \"dark-contrast\"")
    )]
    pub palette: Palette,
    /// Canvas pixels to a CSS pixel.
    pub scale: f64,
    /// CSS pixels that there are for the half-section and the levers.
    pub width: f64,
    /// Whether two sets that share two shafts are drawn as one lever.
    pub merged: bool,
    /// Whether all gears of the half-section are drawn with one module, each set else filling the room.
    pub one_module: bool,
    /// How fast the drawings turn, as a share of the full rate; 0 stands still.
    pub rate: f64,
    /// Whether the half-section shows power by the width of its lines.
    pub power: bool,
    /// Input speed in rev/min.
    pub speed: f64,
    /// Input torque in N·m.
    pub torque: f64,
    /// The unit that drawings letter speeds in: `rev/min` or `rad/s`.
    #[cfg_attr(feature = "types", ts(type = "string"))]
    pub speed_unit: SpeedUnit,
    /// The unit that drawings letter torques in: `N·m` or `lbf·ft`.
    #[cfg_attr(feature = "types", ts(type = "string"))]
    pub torque_unit: TorqueUnit,
    /// Efficiency of every mesh, above 0 and at most 1.
    pub mesh: f64,
    /// Drag of each open clutch or brake, in N·m at 1000 rev/min of slip.
    pub drag: f64,
    /// Whether the load drives the input.
    pub coasting: bool,
    /// Pedal position, 0 released to 1 full.
    pub pedal: f64,
    /// Slope of the road as rise over run; negative downhill.
    pub grade: f64,
    /// Whether the lock-up clutch of the converter is applied.
    pub lockup: bool,
}

read_fields!(Settings {
    palette,
    scale,
    width,
    merged,
    one_module,
    rate,
    power,
    speed,
    torque,
    speed_unit,
    torque_unit,
    mesh,
    drag,
    coasting,
    pedal,
    grade,
    lockup
});

impl Default for Settings {
    fn default() -> Self {
        let LossModel {
            mesh_efficiency: mesh,
            drag,
            coasting,
        } = LossModel::default();
        let Conditions {
            pedal,
            grade,
            lockup,
            ..
        } = Conditions::default();
        Self {
            palette: Palette::default(),
            scale: 1.0,
            width: 800.0,
            merged: false,
            one_module: false,
            rate: 0.0,
            power: false,
            speed: 1000.0,
            torque: 100.0,
            speed_unit: SpeedUnit::default(),
            torque_unit: TorqueUnit::default(),
            mesh,
            drag,
            coasting,
            pedal,
            grade,
            lockup,
        }
    }
}

impl Settings {
    /// Reads settings from JSON text: all of them, by the names of the fields.
    ///
    /// # Errors
    /// Every field that is missing, unknown, of the wrong type or out of its range.
    pub fn parse(text: &str) -> Result<Self, Vec<Problem>> {
        let value = strict(text).map_err(|problem| vec![problem])?;
        let mut problems = Vec::new();
        let settings = Self::read(value, "settings", &mut problems);
        match settings.filter(|_| problems.is_empty()) {
            Some(settings) => settings.checked(),
            None => Err(problems),
        }
    }

    fn checked(self) -> Result<Self, Vec<Problem>> {
        let mut problems = Vec::new();
        let mut within = |place: &str, value: f64, least: f64, most: f64| {
            if !(least..=most).contains(&value) {
                let problem =
                    Problem::out_of_range(place, "problem-out-of-range", value, least, most);
                problems.push(problem);
            }
        };
        within("settings.scale", self.scale, LEAST_SCALE, MOST_SCALE);
        within("settings.rate", self.rate, 0.0, MOST_RATE);
        let model = LossModel::new(self.mesh, self.drag, self.coasting);
        problems.extend(model.err());
        // Of the mesh the model has spoken.
        let road = Conditions {
            mesh_efficiency: 1.0,
            ..self.conditions()
        };
        problems.extend(road.checked().err());
        if problems.is_empty() {
            Ok(self)
        } else {
            Err(problems)
        }
    }

    /// The losses assumed, drag in the engine's measure: parts of the input torque at a slip of
    /// the input speed. `None` where there is a drag but no input torque to measure it by.
    pub fn losses(&self) -> Option<LossModel> {
        let drag = match self.drag {
            0.0 => 0.0,
            drag => drag * self.speed / DRAG_SLIP / self.torque,
        };
        LossModel::new(self.mesh, drag, self.coasting).ok()
    }

    /// What driver and road ask for.
    pub fn conditions(&self) -> Conditions {
        Conditions {
            pedal: self.pedal,
            grade: self.grade,
            lockup: self.lockup,
            mesh_efficiency: self.mesh,
        }
    }
}

/// Reads one of a type's values by its name.
macro_rules! read_by_name {
    ($($kind:ty),+) => {$(
        impl Read for $kind {
            fn read(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Self> {
                let named = Self::ALL.map(|known| (known.name(), known));
                one_of(&value, place, &named, problems)
            }
        }
    )+};
}

read_by_name!(Palette, SpeedUnit, TorqueUnit);

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test stops at the first surprise")]
mod tests {
    use super::*;

    const ALL: &str = r#"{"palette": "dark", "scale": 2, "width": 390, "merged": true,
        "one_module": true, "rate": 1,
        "power": false, "speed": -1500, "torque": 250, "speed_unit": "rad/s", "torque_unit": "lbf·ft",
        "mesh": 0.98, "drag": 2, "coasting": true, "pedal": 0.5, "grade": -0.1, "lockup": true}"#;

    /// Where the problems of settings are.
    fn places(text: &str) -> Vec<String> {
        let problems = Settings::parse(text).unwrap_err();
        problems.into_iter().map(|problem| problem.place).collect()
    }

    #[test]
    fn everything_set_is_read() {
        let set = Settings {
            palette: Palette::Dark,
            scale: 2.0,
            width: 390.0,
            merged: true,
            one_module: true,
            rate: 1.0,
            power: false,
            speed: -1500.0,
            torque: 250.0,
            speed_unit: SpeedUnit::RadPerSecond,
            torque_unit: TorqueUnit::PoundForceFoot,
            mesh: 0.98,
            drag: 2.0,
            coasting: true,
            pedal: 0.5,
            grade: -0.1,
            lockup: true,
        };
        assert_eq!(Settings::parse(ALL), Ok(set));
    }

    #[test]
    fn what_cannot_be_set_is_named() {
        let with = |from: &str, to: &str| places(&ALL.replace(from, to));
        assert_eq!(places("{"), ["line 1, column 1"]);
        assert_eq!(with("dark", "sepia"), ["settings.palette"]);
        assert_eq!(with("rad/s", "Hz"), ["settings.speed_unit"]);
        assert_eq!(with("drag", "hue"), ["settings.hue", "settings"]);
        assert_eq!(with("250", "null"), ["settings.torque"]);
        assert_eq!(with(r#""scale": 2"#, r#""scale": 0"#), ["settings.scale"]);
        assert_eq!(with(r#""rate": 1"#, r#""rate": 40"#), ["settings.rate"]);
        assert_eq!(with("0.98", "1.5"), ["mesh efficiency"]);
        assert_eq!(with("-0.1", "-9"), ["grade"]);
    }

    #[test]
    fn drag_is_measured_by_the_input() {
        let mut settings = Settings::parse(ALL).unwrap();
        settings.speed = 2000.0;
        // 2 N·m at 1000 rev/min are 4 N·m at the input speed, of 250 N·m at the input.
        let losses = settings.losses().unwrap();
        assert_eq!((losses.drag, losses.coasting), (4.0 / 250.0, true));
        settings.torque = 0.0;
        assert_eq!(settings.losses(), None);
        settings.drag = 0.0;
        assert_eq!(settings.losses().unwrap().drag, 0.0);
    }
}
