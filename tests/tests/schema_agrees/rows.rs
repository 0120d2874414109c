//! What is done to the good scenario, and how it must come out.

use serde_json::{Value, json};

use crate::Change::{self, Clear, Extra, Grow, Remove, Set};
use crate::Verdict::{self, Bad, BeyondSchema, Good};
use crate::friction;

/// Place, change, verdict.
pub type Row = (&'static str, Change, Verdict);

pub fn rows() -> Vec<Row> {
    let parts = [
        lists(),
        couplings(),
        elements(),
        surroundings(),
        dynamics(),
        sources(),
    ];
    parts.into_iter().flatten().collect()
}

fn long(count: usize) -> Value {
    json!("x".repeat(count))
}

/// A torque curve over the speeds of the good one.
fn curve(points: u32) -> Value {
    let step = 5200.0 / f64::from(points - 1);
    let points = 0..points;
    points
        .map(|point| json!([800.0 + step * f64::from(point), 150]))
        .collect()
}

/// Whole lists and objects.
fn lists() -> Vec<Row> {
    vec![
        ("", Extra, Bad),
        ("", Set(json!([])), Bad),
        ("/format", Remove, Bad),
        ("/format", Set(json!(1)), Good),
        ("/format", Set(json!(2)), Good),
        ("/format", Set(json!(3)), Bad),
        ("/format", Set(json!("1")), Bad),
        ("/name", Remove, Bad),
        ("/name", Set(json!("")), Bad),
        ("/name", Set(long(80)), Good),
        ("/name", Set(long(81)), Bad),
        ("/name", Set(json!("ü".repeat(80))), Good),
        ("/name", Set(json!(3)), Bad),
        ("/about", Set(json!("x")), Good),
        ("/housing_label", Set(json!("Axle")), Good),
        ("/housing_label", Set(json!("")), Bad),
        ("/housing_label", Set(long(41)), Bad),
        ("/housing_label", Set(json!(1)), Bad),
        ("/input", Remove, Bad),
        ("/input", Set(json!("housing")), Bad),
        ("/input", Set(json!("nobody")), BeyondSchema),
        ("/output", Set(json!("in")), BeyondSchema),
        ("/output", Set(json!(null)), Bad),
        ("/shafts", Remove, Bad),
        ("/shafts", Clear, Bad),
        ("/shafts", Grow(24), Good),
        ("/shafts", Grow(25), Bad),
        ("/shafts/0", Extra, Bad),
        ("/shafts/0", Set(json!("in")), Bad),
        ("/shafts/0", Set(json!(["in", "Input"])), Bad),
        ("/shafts/0/label", Remove, Bad),
        ("/shafts/0/label", Set(json!("")), Bad),
        ("/shafts/0/label", Set(long(40)), Good),
        ("/shafts/0/label", Set(long(41)), Bad),
        ("/shafts/4/id", Set(long(24)), BeyondSchema), // its gear now has no shaft
        ("/shafts/4/id", Set(long(25)), Bad),
        ("/shafts/4/id", Set(json!("")), Bad),
        ("/shafts/4/id", Set(json!("a b")), Bad),
        ("/shafts/4/id", Set(json!("ä")), Bad),
        ("/shafts/4/id", Set(json!("housing")), Bad),
        ("/shafts/4/id", Set(json!("in")), BeyondSchema),
        ("/couplings", Remove, Bad),
        ("/couplings", Clear, Good),
        ("/couplings", Grow(12), Good),
        ("/couplings", Grow(13), Bad),
        ("/elements", Grow(16), Good),
        ("/elements", Grow(17), Bad),
        ("/elements", Set(json!(null)), Bad),
        ("/ranges", Remove, Good),
        ("/ranges", Clear, Good),
        ("/ranges", Grow(32), Good),
        ("/ranges", Grow(33), Bad),
    ]
}

/// Gear sets and gear pairs.
fn couplings() -> Vec<Row> {
    vec![
        // A planetary set.
        ("/couplings/0", Extra, Bad),
        ("/couplings/0/kind", Remove, Bad),
        ("/couplings/0/kind", Set(json!("worm")), Bad),
        ("/couplings/0/kind", Set(json!("double-pinion")), Bad),
        ("/couplings/0/id", Remove, Bad),
        ("/couplings/0/id", Set(json!("p2")), BeyondSchema),
        ("/couplings/0/sun", Remove, Bad),
        ("/couplings/0/sun", Extra, Bad),
        ("/couplings/0/sun", Set(json!(["in", 30])), Bad),
        ("/couplings/0/sun/shaft", Set(json!("nobody")), BeyondSchema),
        ("/couplings/0/sun/shaft", Set(json!("out")), BeyondSchema),
        ("/couplings/0/sun/shaft", Set(json!("housing")), Good),
        ("/couplings/0/sun/teeth", Set(json!(5)), Bad),
        ("/couplings/0/sun/teeth", Set(json!(6)), Good),
        ("/couplings/0/sun/teeth", Set(json!(999)), Good),
        ("/couplings/0/sun/teeth", Set(json!(1000)), Bad),
        ("/couplings/0/sun/teeth", Set(json!(0)), Bad),
        ("/couplings/0/sun/teeth", Set(json!(-30)), Bad),
        ("/couplings/0/sun/teeth", Set(json!(30.5)), Bad),
        ("/couplings/0/sun/teeth", Set(json!("30")), Bad),
        ("/couplings/0/carrier", Remove, Bad),
        ("/couplings/0/carrier", Set(json!({"shaft": "out"})), Bad),
        ("/couplings/0/pinion", Remove, Bad),
        ("/couplings/0/pinion/teeth", Remove, Bad),
        ("/couplings/0/pinion/count", Set(json!(1)), Good),
        ("/couplings/0/pinion/count", Set(json!(12)), Good),
        ("/couplings/0/pinion/count", Set(json!(0)), Bad),
        ("/couplings/0/pinion/count", Set(json!(13)), Bad),
        // A set with two pinion rows.
        ("/couplings/1", Extra, Bad),
        ("/couplings/1/inner", Remove, Bad),
        ("/couplings/1/inner/teeth", Set(json!(1000)), Bad),
        (
            "/couplings/1/inner",
            Set(json!({"teeth": 20, "count": 3})),
            Bad,
        ),
        ("/couplings/1/outer", Remove, Bad),
        ("/couplings/1/count", Remove, Bad),
        ("/couplings/1/count", Set(json!(13)), Bad),
        // A gear pair.
        ("/couplings/2", Extra, Bad),
        ("/couplings/2/mesh", Set(json!("internal")), Good),
        ("/couplings/2/mesh", Set(json!("bevel")), Bad),
        ("/couplings/2/mesh", Remove, Bad),
        ("/couplings/2/first", Remove, Bad),
        ("/couplings/2/second/teeth", Set(json!(1000)), Bad),
        ("/couplings/2/second/shaft", Set(json!("out")), BeyondSchema),
        ("/couplings/2/second/shaft", Set(json!("housing")), Bad),
        // A set with stepped pinions.
        ("/couplings/3", Extra, Bad),
        ("/couplings/3/sun", Remove, Bad),
        ("/couplings/3/ring/teeth", Set(json!(1000)), Bad),
        ("/couplings/3/ring/shaft", Set(json!("in")), BeyondSchema),
        ("/couplings/3/carrier", Set(json!("out")), Good),
        ("/couplings/3/sun_pinion", Remove, Bad),
        ("/couplings/3/sun_pinion", Extra, Bad),
        ("/couplings/3/sun_pinion/teeth", Set(json!(5)), Bad),
        ("/couplings/3/ring_pinion", Remove, Bad),
        ("/couplings/3/ring_pinion/teeth", Set(json!(20)), Good),
        ("/couplings/3/count", Remove, Bad),
        ("/couplings/3/count", Set(json!(13)), Bad),
        // Two suns on stepped pinions.
        ("/couplings/4", Extra, Bad),
        ("/couplings/4/first_sun", Remove, Bad),
        (
            "/couplings/4/second_sun/shaft",
            Set(json!("in")),
            BeyondSchema,
        ),
        ("/couplings/4/second_sun/shaft", Set(json!("housing")), Good),
        ("/couplings/4/carrier", Remove, Bad),
        ("/couplings/4/first_pinion", Remove, Bad),
        ("/couplings/4/second_pinion/teeth", Set(json!(1000)), Bad),
        ("/couplings/4/count", Remove, Bad),
        // A Ravigneaux set.
        ("/couplings/5", Extra, Bad),
        ("/couplings/5/small_sun", Remove, Bad),
        ("/couplings/5/small_sun/shaft", Set(json!("housing")), Good),
        (
            "/couplings/5/small_sun/shaft",
            Set(json!("r1")),
            BeyondSchema,
        ),
        ("/couplings/5/large_sun", Remove, Bad),
        ("/couplings/5/large_sun/teeth", Set(json!(0)), Bad),
        ("/couplings/5/ring", Remove, Bad),
        ("/couplings/5/carrier", Remove, Bad),
        ("/couplings/5/short", Remove, Bad),
        ("/couplings/5/short/teeth", Set(json!(1000)), Bad),
        ("/couplings/5/long", Extra, Bad),
        ("/couplings/5/long", Remove, Bad),
        ("/couplings/5/count", Set(json!(0)), Bad),
    ]
}

/// Shift elements and ranges.
fn elements() -> Vec<Row> {
    vec![
        // Shift elements.
        ("/elements/0", Extra, Bad),
        ("/elements/0/kind", Set(json!("band")), Bad),
        ("/elements/0/kind", Set(json!("clutch")), Bad),
        ("/elements/0/shaft", Remove, Bad),
        ("/elements/0/shaft", Set(json!("housing")), Bad),
        ("/elements/0/shaft", Set(json!("nobody")), BeyondSchema),
        ("/elements/1", Extra, Bad),
        ("/elements/1/between", Set(json!(["in"])), Bad),
        ("/elements/1/between", Set(json!(["in", "out", "r1"])), Bad),
        ("/elements/1/between", Set(json!(["in", "housing"])), Bad),
        ("/elements/1/between", Set(json!(["in", "in"])), Bad),
        (
            "/elements/1/between",
            Set(json!(["in", "nobody"])),
            BeyondSchema,
        ),
        ("/elements/1/id", Set(json!("A")), BeyondSchema),
        // One-way clutches.
        ("/elements/2", Extra, Bad),
        ("/elements/2/kind", Set(json!("sprag")), Bad),
        ("/elements/2/kind", Set(json!("brake")), Bad),
        ("/elements/2/id", Remove, Bad),
        ("/elements/2/label", Set(long(41)), Bad),
        ("/elements/2/shaft", Remove, Bad),
        ("/elements/2/shaft", Set(json!("housing")), Bad),
        ("/elements/2/shaft", Set(json!("nobody")), BeyondSchema),
        ("/elements/2/against", Remove, Bad),
        ("/elements/2/against", Set(json!("r1")), Good),
        ("/elements/2/against", Set(json!(["r1"])), Bad),
        ("/elements/2/against", Set(json!("nobody")), BeyondSchema),
        ("/elements/2/against", Set(json!("end")), BeyondSchema),
        ("/elements/2/locks", Remove, Bad),
        ("/elements/2/locks", Set(json!("forward")), Good),
        ("/elements/2/locks", Set(json!("both")), Bad),
        ("/ranges/0/applied", Set(json!(["A", "F"])), BeyondSchema),
        // Where they are drawn.
        ("/elements/0/gap", Remove, Good),
        ("/elements/0/gap", Set(json!(6)), Good),
        ("/elements/1/gap", Set(json!(7)), BeyondSchema),
        ("/elements/1/gap", Set(json!(13)), Bad),
        ("/elements/2/gap", Set(json!(-1)), Bad),
        ("/elements/2/gap", Set(json!(1.5)), Bad),
        ("/elements/2/gap", Set(json!("1")), Bad),
        ("/couplings/4/turned", Remove, Good),
        ("/couplings/4/turned", Set(json!(false)), Good),
        ("/couplings/4/turned", Set(json!("yes")), Bad),
        ("/couplings/5/turned", Set(json!(1)), Bad),
        // Friction surfaces.
        ("/elements/0/friction", Remove, Good),
        ("/elements/0/friction", Extra, Bad),
        ("/elements/0/friction", Set(json!(null)), Bad),
        (
            "/elements/0/friction",
            Set(json!([8, 64, 52, 0.1, 3500])),
            Bad,
        ),
        ("/elements/0/friction", Set(json!("8")), Bad),
        ("/elements/1/friction", Extra, Bad),
        ("/elements/0/friction/surfaces", Remove, Bad),
        ("/elements/0/friction/surfaces", Set(json!(1)), Good),
        ("/elements/0/friction/surfaces", Set(json!(40)), Good),
        ("/elements/0/friction/surfaces", Set(json!(0)), Bad),
        ("/elements/0/friction/surfaces", Set(json!(41)), Bad),
        ("/elements/0/friction/surfaces", Set(json!(8.5)), Bad),
        ("/elements/0/friction/outer_radius", Remove, Bad),
        ("/elements/0/friction/outer_radius", Set(json!(2000)), Good),
        ("/elements/0/friction/outer_radius", Set(json!(2001)), Bad),
        ("/elements/0/friction/outer_radius", Set(json!("64")), Bad),
        ("/elements/0/friction/inner_radius", Remove, Bad),
        ("/elements/0/friction/inner_radius", Set(json!(1)), Good),
        ("/elements/0/friction/inner_radius", Set(json!(0.9)), Bad),
        (
            "/elements/0/friction/inner_radius",
            Set(json!(64)),
            BeyondSchema,
        ),
        ("/elements/0/friction/coefficient", Remove, Bad),
        ("/elements/0/friction/coefficient", Set(json!(1)), Good),
        ("/elements/0/friction/coefficient", Set(json!(1.01)), Bad),
        ("/elements/0/friction/coefficient", Set(json!(0.009)), Bad),
        ("/elements/0/friction/clamp_force", Remove, Bad),
        (
            "/elements/0/friction/clamp_force",
            Set(json!(10_000_000)),
            Good,
        ),
        (
            "/elements/0/friction/clamp_force",
            Set(json!(10_000_001)),
            Bad,
        ),
        ("/elements/0/friction/clamp_force", Set(json!(-1)), Bad),
        (
            "/elements/2",
            Set(
                json!({"kind": "one-way", "id": "F", "label": "F", "shaft": "end",
                "against": "housing", "locks": "backward", "friction": friction()}),
            ),
            Bad,
        ),
        // Ranges.
        ("/ranges/0", Extra, Bad),
        ("/ranges/0/applied", Remove, Bad),
        ("/ranges/0/applied", Clear, Good),
        ("/ranges/0/applied", Set(json!(["A", "C"])), Good),
        ("/ranges/0/applied", Set(json!(["A", "A"])), Bad),
        ("/ranges/0/applied", Set(json!(["Z"])), BeyondSchema),
        ("/ranges/0/applied", Set(json!("A")), Bad),
        ("/ranges/0/id", Set(json!("2")), BeyondSchema),
    ]
}

/// Engine, converter and load.
fn surroundings() -> Vec<Row> {
    vec![
        ("/engine", Remove, Bad),
        ("/load", Remove, Bad),
        ("/converter", Remove, Good),
        ("/engine", Set(json!(null)), Bad),
        ("/converter", Set(json!(null)), Bad),
        ("/load", Set(json!([1, 2])), Bad),
        ("/engine", Extra, Bad),
        ("/engine/label", Remove, Bad),
        ("/engine/label", Set(long(41)), Bad),
        ("/engine/label", Set(json!(3)), Bad),
        ("/engine/full", Remove, Bad),
        ("/engine/full", Clear, Bad),
        ("/engine/full", Set(json!("steep")), Bad),
        ("/engine/full", Set(json!([[800, 140]])), Bad),
        ("/engine/full", Set(curve(32)), Good),
        ("/engine/full", Set(curve(33)), Bad),
        ("/engine/full/0", Set(json!([800])), Bad),
        ("/engine/full/0", Set(json!([800, 140, 1])), Bad),
        ("/engine/full/0", Set(json!({"speed": 800})), Bad),
        ("/engine/full/0/0", Set(json!(0)), Bad),
        ("/engine/full/0/0", Set(json!("800")), Bad),
        ("/engine/full/0/0", Set(json!(6000)), BeyondSchema),
        ("/engine/full/0/0", Set(json!(801)), BeyondSchema),
        ("/engine/full/1/0", Set(json!(30_001)), Bad),
        ("/engine/full/0/1", Set(json!(-18)), BeyondSchema),
        ("/engine/full/0/1", Set(json!(100_001)), Bad),
        ("/engine/motoring", Remove, Bad),
        ("/engine/motoring/0/1", Set(json!(0)), Good),
        ("/engine/motoring/0/1", Set(json!(0.5)), Bad),
        ("/engine/motoring/1/0", Set(json!(800)), BeyondSchema),
        ("/converter", Extra, Bad),
        ("/converter/label", Set(json!("")), Bad),
        ("/converter/table", Remove, Bad),
        ("/converter/table", Set(json!([[0, 2, 140]])), Bad),
        ("/converter/table/0", Set(json!([0, 2])), Bad),
        ("/converter/table/0/0", Set(json!(0.1)), BeyondSchema),
        ("/converter/table/0/0", Set(json!(-0.1)), Bad),
        ("/converter/table/1/0", Set(json!(0.9)), BeyondSchema),
        ("/converter/table/2/0", Set(json!(1)), Bad),
        ("/converter/table/0/1", Set(json!(0.9)), Bad),
        ("/converter/table/0/1", Set(json!(10)), BeyondSchema), // more power out than in
        ("/converter/table/1/1", Set(json!(2.1)), BeyondSchema),
        ("/converter/table/0/2", Set(json!(0.9)), Bad),
        ("/converter/table/0/2", Set(json!(100_000)), Good),
        ("/converter/table/0/2", Set(json!(100_001)), Bad),
        ("/load", Extra, Bad),
        ("/load/label", Remove, Bad),
        ("/load/constant", Remove, Bad),
        ("/load/constant", Set(json!(-1)), Bad),
        ("/load/linear", Set(json!("0")), Bad),
        ("/load/quadratic", Set(json!(0)), Good),
        ("/load/quadratic", Set(json!(-1e-9)), Bad),
        ("/load/weight", Set(json!(100_000)), Good),
        ("/load/weight", Set(json!(100_001)), Bad),
    ]
}

/// What a shift in time needs to know.
fn dynamics() -> Vec<Row> {
    vec![
        ("/dynamics", Remove, Good),
        ("/dynamics", Set(json!({})), Good),
        ("/dynamics", Set(json!(null)), Bad),
        ("/dynamics", Set(json!([])), Bad),
        ("/dynamics", Extra, Bad),
        ("/dynamics/engine_inertia", Remove, Good),
        ("/dynamics/engine_inertia", Set(json!(0)), Bad),
        ("/dynamics/engine_inertia", Set(json!("0.1")), Bad),
        ("/dynamics/load_inertia", Set(json!(1_000_000)), Good),
        ("/dynamics/load_inertia", Set(json!(1_000_001)), Bad),
        ("/dynamics/shafts", Clear, Good),
        ("/dynamics/shafts", Set(json!({"in": 0.02})), Bad),
        ("/dynamics/shafts/0", Extra, Bad),
        ("/dynamics/shafts/0/shaft", Remove, Bad),
        (
            "/dynamics/shafts/0/shaft",
            Set(json!("nowhere")),
            BeyondSchema,
        ),
        ("/dynamics/shafts/0/shaft", Set(json!("housing")), Bad),
        ("/dynamics/shafts/0/inertia", Remove, Bad),
        ("/dynamics/shafts/0/inertia", Set(json!(1e-9)), Good),
        ("/dynamics/shafts/0/inertia", Set(json!(-1)), Bad),
        ("/dynamics/elements", Set(json!(3)), Bad),
        ("/dynamics/elements/0", Extra, Bad),
        ("/dynamics/elements/0/element", Remove, Bad),
        (
            "/dynamics/elements/0/element",
            Set(json!("Z")),
            BeyondSchema,
        ),
        ("/dynamics/elements/0/fill_time", Remove, Good),
        ("/dynamics/elements/0/fill_time", Set(json!(0)), Good),
        ("/dynamics/elements/0/fill_time", Set(json!(5.1)), Bad),
        ("/dynamics/elements/0/full_torque", Remove, Good),
        ("/dynamics/elements/0/full_torque", Set(json!(0)), Bad),
        (
            "/dynamics/elements/0/full_torque",
            Set(json!(1_000_001)),
            Bad,
        ),
    ]
}

/// More than one source, or output.
fn sources() -> Vec<Row> {
    let mut rows = vec![
        ("/sources", Remove, Good),
        ("/sources", Set(json!({})), Good),
        ("/sources", Set(json!(null)), Bad),
        ("/sources", Set(json!([])), Bad),
        ("/sources", Extra, Bad),
        ("/sources/input", Remove, Good),
        ("/sources/input", Extra, Bad),
        ("/sources/input", Set(json!({"shaft": "in"})), Bad),
        ("/sources/further", Clear, Good),
        ("/sources/further", Grow(4), Good),
        ("/sources/further", Grow(5), Bad),
        ("/sources/further", Set(json!({"shaft": "end"})), Bad),
        ("/sources/further/0", Extra, Bad),
        ("/sources/further/0/shaft", Remove, Bad),
        (
            "/sources/further/0/shaft",
            Set(json!("nowhere")),
            BeyondSchema,
        ),
        ("/sources/further/0/shaft", Set(json!("housing")), Bad),
        ("/sources/outputs", Clear, Good),
        ("/sources/outputs", Grow(2), Bad),
        ("/sources/outputs", Set(json!(["in"])), BeyondSchema),
        ("/sources/outputs", Set(json!(["out"])), BeyondSchema),
        ("/sources/outputs", Set(json!(["r1", "r2", "end"])), Good),
        ("/sources/outputs/0", Set(json!("nowhere")), BeyondSchema),
        ("/sources/outputs/0", Set(json!(3)), Bad),
        ("/sources/battery", Remove, Good),
        ("/sources/battery", Set(json!(0)), Good),
        ("/sources/battery", Set(json!(-1)), Bad),
        ("/sources/battery", Set(json!(1_000_001)), Bad),
    ];
    let numbers = [
        ("speed", [1.0, 1e6], [0.9, 1.1e6]),
        ("torque", [0.001, 1e6], [0.0, 1.1e6]),
        ("power", [0.001, 1e6], [0.0, 1.1e6]),
        ("efficiency", [0.01, 1.0], [0.0, 1.01]),
    ];
    for source in ["/sources/input", "/sources/further/0"] {
        let at = |field: &str| -> &'static str { format!("{source}/{field}").leak() };
        for (field, good, bad) in numbers {
            rows.push((at(field), Remove, Good));
            rows.push((at(field), Set(json!("1")), Bad));
            rows.extend(good.map(|value| (at(field), Set(json!(value)), Good)));
            rows.extend(bad.map(|value| (at(field), Set(json!(value)), Bad)));
        }
        rows.push((at("kind"), Remove, Good));
        rows.push((at("kind"), Set(json!("motor")), Good));
        rows.push((at("kind"), Set(json!("turbine")), Bad));
        rows.push((at("label"), Remove, Good));
        rows.push((at("label"), Set(json!("")), Bad));
        rows.push((at("label"), Set(long(40)), Good));
        rows.push((at("label"), Set(long(41)), Bad));
        rows.push((at("label"), Set(json!("a\nb")), Bad));
    }
    rows
}
