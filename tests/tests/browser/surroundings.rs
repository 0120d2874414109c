//! Engine, torque converter and load in the form.

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Page, View, page};
use serde_json::{Value, json};

/// A set whose sun and ring are driven together: the output turns as the input does, without loss.
const DIRECT: (&str, &str) = ("#s=01-one-set&on=H,J,N", "1");

const FIELD: &str =
    "probe.all('[data-part=edit] [data-key]').find((node) => node.dataset.key === args[0])";

/// Types a number into a field of the form.
fn set(page: &Page, key: &str, value: &str) -> Result<()> {
    let script = "(() => { const node = FIELD; \
        if (!node) throw new Error(`no field ${args[0]}`); \
        node.closest('details').open = true; \
        node.focus(); \
        node.value = args[1]; \
        node.dispatchEvent(new Event('input', { bubbles: true })); \
    })()";
    page.run(&script.replace("FIELD", FIELD), json!([key, value]))
}

fn value(page: &Page, key: &str) -> Result<String> {
    page.get(&format!("{FIELD}.value"), json!([key]))
}

fn press(page: &Page, key: &str) -> Result<()> {
    let script =
        "(() => { const node = FIELD; node.scrollIntoView({ block: 'center' }); node.click(); })()";
    page.run(&script.replace("FIELD", FIELD), json!([key]))?;
    page.rest()
}

/// A part of the train as its file has it.
fn part(page: &Page, name: &str) -> Result<Value> {
    let text = "probe.host('lever-train').shadowRoot && probe.one('.cm-content').cmTile.view.state.doc.toString()";
    page.get(&format!("JSON.parse({text})[args] ?? null"), json!(name))
}

/// Opens the form, and the file's text to look into.
fn open(page: &Page) -> Result<()> {
    for panel in ["edit", "file"] {
        page.unfold(panel)?;
    }
    page.until(
        "the form is there",
        "probe.all('[data-part=edit] [data-set]').length > 0",
    )?;
    page.until("the editor has come", "probe.one('.cm-content')")
}

/// Takes everything back and says in how many steps.
fn take_all_back(page: &Page) -> Result<usize> {
    page.get(
        "(() => { let steps = 0; const undo = probe.one('[data-part=edit] button[data-key=undo]'); \
            while (!undo.disabled) { undo.click(); steps += 1; } return steps; })()",
        Value::Null,
    )
}

/// Catches an engine that drives nothing, fields that change another number, an end of one curve that the other
/// does not follow, and letters that are steps of their own.
///
/// By hand: 150 N·m at every speed against 6 N·m at 1000 rev/min, growing with its square: 5000 rev/min.
#[test]
fn an_engine_is_put_before_a_train_and_drives_it() -> Result<()> {
    page::open(View::LAPTOP, DIRECT.0, |page| {
        let seen = page.seen()?;
        ensure!(seen.exact.as_deref() == Some(DIRECT.1), "{seen:?}");
        open(page)?;
        ensure!(part(page, "engine")? == Value::Null);
        press(page, "engine")?;
        page.until(
            "its panel is there",
            "probe.one('details[data-part=operating]')?.checkVisibility()",
        )?;
        set(page, "label engine", "Flat")?;
        for (key, number) in [
            ("full 0 1", "150"),
            ("full 1 1", "150"),
            ("full 2 0", "6500"),
            ("load constant", "0"),
            ("load linear", "0"),
            ("load quadratic", "2"),
            ("load quadratic", "6"),
            ("load weight", "1000"),
        ] {
            set(page, key, number)?;
        }
        page.rest()?;
        ensure!(
            value(page, "motoring 1 0")? == "6500",
            "its end stays behind"
        );
        let (engine, load) = (part(page, "engine")?, part(page, "load")?);
        ensure!(
            engine["label"] == "Flat" && engine["motoring"][1][0] == 6500.0,
            "{engine}"
        );
        ensure!(
            load["quadratic"] == 6e-6 && load["weight"] == 1000.0,
            "{load}"
        );

        page.unfold("operating")?;
        page.run(
            "(() => { const pedal = probe.one('#pedal'); pedal.value = 100; \
                pedal.dispatchEvent(new Event('input', { bubbles: true })); })()",
            Value::Null,
        )?;
        page.rest()?;
        let found: Vec<String> = page.get(
            "['speed', 'torque'].map((kind) => \
                probe.one(`tr[data-point='0'][data-at=output] [data-kind=${kind}]`).textContent)",
            Value::Null,
        )?;
        ensure!(found == ["5000", "150.0"], "{found:?}");

        // The engine, its name, and seven numbers.
        let steps = take_all_back(page)?;
        ensure!(steps == 9, "{steps} steps led back");
        page.rest()?;
        ensure!(part(page, "engine")? == Value::Null && part(page, "load")? == Value::Null);
        ensure!(
            !page.shows("details[data-part=operating]")?,
            "its panel stays"
        );
        Ok(())
    })
}

/// Catches a point that bends its curve or goes where none is, a folder that closes over it, and a converter
/// that stays when its engine goes.
#[test]
fn points_are_added_and_taken_away() -> Result<()> {
    page::open(View::LAPTOP, DIRECT.0, |page| {
        open(page)?;
        press(page, "engine")?;
        press(page, "converter")?;
        page.run(
            &format!("(() => {{ {FIELD}.open = true; }})()"),
            json!(["around engine"]),
        )?;
        // Half-way from 800 rev/min, 120 N·m to 2400 rev/min, 200 N·m.
        press(page, "add full 0")?;
        ensure!(value(page, "full 1 0")? == "1600" && value(page, "full 1 1")? == "160");
        let open: bool = page.get(&format!("{FIELD}.open"), json!(["around engine"]))?;
        ensure!(open, "its folder has closed");
        press(page, "add table 1")?;
        let table = part(page, "converter")?["table"].clone();
        ensure!(table.as_array().map_or(0, Vec::len) == 5, "{table}");
        press(page, "remove full 2")?;
        let full = part(page, "engine")?["full"].clone();
        ensure!(
            full == json!([[800, 120], [1600, 160], [6000, 150]]),
            "{full}"
        );
        const DISABLED: &str = "args.map((key) => \
            probe.all('[data-part=edit] [data-key]').find((node) => node.dataset.key === key).disabled)";
        let ends = json!([
            "remove full 0",
            "remove full 2",
            "add full 2",
            "remove table 0"
        ]);
        let ends: Vec<bool> = page.get(DISABLED, ends)?;
        ensure!(ends == [false, false, true, true], "{ends:?}");
        // Where one curve ends the other does as well.
        press(page, "remove full 2")?;
        let (full, motoring) = (value(page, "full 1 0")?, value(page, "motoring 1 0")?);
        ensure!(full == "1600" && motoring == "1600", "{full} {motoring}");
        let ends = json!(["remove full 0", "remove full 1", "remove motoring 1"]);
        let ends: Vec<bool> = page.get(DISABLED, ends)?;
        ensure!(ends == [true; 3], "{ends:?}");
        press(page, "no engine")?;
        for name in ["engine", "converter", "load"] {
            ensure!(part(page, name)? == Value::Null, "{name} stays");
        }
        press(page, "undo")?;
        ensure!(part(page, "converter")?["table"] == table);
        Ok(())
    })
}

/// Catches a number that is refused without a word about where and why, that is taken from under the hands of
/// whoever types it, or that stays when it is left.
#[test]
fn what_is_refused_says_why_and_waits_to_be_mended() -> Result<()> {
    page::open(View::LAPTOP, DIRECT.0, |page| {
        open(page)?;
        press(page, "engine")?;
        press(page, "converter")?;
        // More power would come out than goes in: 1.9 · 0.6 is more than 1.
        set(page, "table 1 1", "1.9")?;
        let told = page.messages()?.join(" ");
        for part in ["converter.table[", "power"] {
            ensure!(told.contains(part), "no {part} in {told}");
        }
        let state = format!("[{FIELD}.value, {FIELD}.getAttribute('aria-invalid')]");
        let typed: [Value; 2] = page.get(&state, json!(["table 1 1"]))?;
        ensure!(typed == [json!("1.9"), json!("true")], "{typed:?}");
        ensure!(part(page, "converter")?["table"][1][1] == 1.35);
        set(page, "table 1 1", "1.5")?;
        ensure!(page.messages()?.is_empty(), "{:?}", page.messages()?);
        let mended: [Value; 2] = page.get(&state, json!(["table 1 1"]))?;
        ensure!(mended == [json!("1.5"), Value::Null], "{mended:?}");
        // Beyond the point that comes after it.
        set(page, "table 1 0", "0.9")?;
        let title: String = page.get(&format!("{FIELD}.title"), json!(["table 1 0"]))?;
        ensure!(title == "0 to 0.87", "{title}");
        // In the browser's own words beside the field, too, after a moment.
        page.run(&format!("(() => {{ const node = {FIELD}; node.addEventListener('invalid', () => node.dataset.told = node.validationMessage); }})()"), json!(["table 1 0"]))?;
        page.until(
            "it is said",
            "probe.all('[data-told]').map((node) => node.dataset.told).join() === '0 to 0.87'",
        )?;
        page.run(
            &format!("(() => {{ {FIELD}.blur(); }})()"),
            json!(["table 1 0"]),
        )?;
        ensure!(value(page, "table 1 0")? == "0.6");
        Ok(())
    })
}

/// Catches numbers that are shown or read in another unit than their column says: 1 lbf·ft is
/// 1.3558179483314004 N·m, and 1 rad/s is 30/π rev/min.
#[test]
fn numbers_are_in_the_units_chosen() -> Result<()> {
    let link = format!("{}&u=rads,lbfft", DIRECT.0);
    page::open(View::LAPTOP, &link, |page| {
        open(page)?;
        press(page, "engine")?;
        press(page, "converter")?;
        let shown =
            ["full 1 0", "full 1 1", "table 0 2", "load quadratic"].map(|key| value(page, key));
        let shown: Vec<String> = shown.into_iter().collect::<Result<_>>()?;
        // 2400 · π/30, 200 / 1.35582, 150 · π/30 · √1.35582, 3 / 1.35582.
        ensure!(
            shown == ["251.33", "147.51", "18.29", "2.2127"],
            "{shown:?}"
        );
        set(page, "full 1 1", "100")?;
        let torque = part(page, "engine")?["full"][1][1].as_f64().unwrap_or(0.0);
        ensure!((torque - 135.581_794_833).abs() < 1e-6, "{torque}");
        Ok(())
    })
}
