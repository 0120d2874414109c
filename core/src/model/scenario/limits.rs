//! How large a scenario may be. The limits keep every answer instant and every drawing
//! readable; they are stated in `scenarios/FORMAT.md` and enforced on reading.

/// Bytes of one scenario file.
pub const FILE_BYTES: usize = 64 * 1024;
/// Rotating shafts, the housing not counted.
pub const SHAFTS: usize = 24;
/// Gear sets and gear pairs.
pub const COUPLINGS: usize = 12;
/// Clutches and brakes. All 2ⁿ combinations are classified, so this bounds the work.
pub const ELEMENTS: usize = 16;
/// Named ranges.
pub const RANGES: usize = 32;
/// Characters of an id.
pub const ID_CHARS: usize = 24;
/// Characters of a label.
pub const LABEL_CHARS: usize = 40;
/// Characters of a scenario's name.
pub const NAME_CHARS: usize = 80;
/// Characters of the sentence about a scenario.
pub const ABOUT_CHARS: usize = 600;
/// Fewest teeth a gear may have in a file. Fewer than [`crate::model::tooth_checks::FEWEST_TEETH`]
/// is allowed but warned about.
pub const TEETH_MIN: u32 = 6;
/// Most teeth a gear may have in a file.
pub const TEETH_MAX: u32 = 999;
/// Most pinions in one row.
pub const PINIONS: u32 = 12;
/// Fewest and most friction surfaces of a clutch or brake.
pub const SURFACES: (f64, f64) = (1.0, 40.0);
/// Smallest and largest radius of a lining in mm.
pub const LINING_RADIUS_MM: (f64, f64) = (1.0, 2000.0);
/// Lowest and highest coefficient of friction.
pub const FRICTION: (f64, f64) = (0.01, 1.0);
/// Smallest and largest clamp force in N.
pub const CLAMP_FORCE_N: (f64, f64) = (1.0, 10_000_000.0);
/// Fewest points of a torque curve or a converter table.
pub const POINTS_MIN: usize = 2;
/// Most points of a torque curve or a converter table.
pub const POINTS_MAX: usize = 32;
/// Lowest engine speed in a torque curve, in rev/min: a curve begins where the engine idles.
pub const ENGINE_SPEED_MIN: f64 = 1.0;
/// Highest engine speed in a torque curve, in rev/min.
pub const ENGINE_SPEED_MAX: f64 = 30_000.0;
/// Largest torque of an engine or a load, in N·m.
pub const TORQUE_MAX: f64 = 100_000.0;
/// Largest torque ratio of a converter: far above any that is built.
pub const TORQUE_RATIO_MAX: f64 = 10.0;
/// Smallest capacity factor of a converter, in rev/min per √(N·m).
pub const CAPACITY_FACTOR_MIN: f64 = 1.0;
/// Largest capacity factor of a converter, in rev/min per √(N·m).
pub const CAPACITY_FACTOR_MAX: f64 = 100_000.0;
