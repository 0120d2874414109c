//! Tables and figures taken away where they stand.

use anyhow::{Context, Result, ensure};
use fantoccini::key::Key;
use levertrain_tests::browser::{Page, View, page};
use serde::Deserialize;
use serde_json::{Value, json};

use crate::by_hand::{self, SECOND};
use crate::language;

/// A file that the page would have saved.
#[derive(Debug, Deserialize)]
struct Taken {
    name: String,
    kind: String,
    /// As text, with the mark of its letters where it has one.
    text: String,
}

/// Opens the menu of a figure or a table, and presses one of its buttons.
fn press(page: &Page, of: &str, at: usize, kind: &str) -> Result<()> {
    page.until(
        &format!("{of} can be taken away"),
        &format!("probe.one('[data-take=\"{of}\"]')"),
    )?;
    page.run(
        "window.taken = undefined; let made; \
         const { createObjectURL } = URL; const { click } = HTMLAnchorElement.prototype; \
         URL.createObjectURL = (blob) => (made = blob, createObjectURL.call(URL, blob)); \
         HTMLAnchorElement.prototype.click = function () { \
            Object.assign(URL, { createObjectURL }); HTMLAnchorElement.prototype.click = click; \
            window.taken = { name: this.download, blob: made }; \
         }; \
         const [of, at, kind] = args; const button = probe.one(`[data-take='${of}']`); \
         button.click(); \
         button.parentNode.querySelectorAll('.take-group')[at].querySelector(`[data-as='${kind}']`).click(); \
         button.click()",
        json!([of, at, kind]),
    )
}

/// The file that one of the buttons saves.
fn take(page: &Page, of: &str, at: usize, kind: &str) -> Result<Taken> {
    press(page, of, at, kind)?;
    page.until("the file is made", "window.taken")?;
    page.get(
        "(async () => ({ name: window.taken.name, kind: window.taken.blob.type, \
            text: new TextDecoder('utf-8', { ignoreBOM: true }).decode(await window.taken.blob.arrayBuffer()) }))()",
        Value::Null,
    )
}

/// The name of the file of a table, and its lines.
pub fn csv(page: &Page, of: &str, at: usize) -> Result<(String, Vec<String>)> {
    let taken = take(page, of, at, "csv")?;
    ensure!(taken.kind.starts_with("text/csv"), "{taken:?}");
    let text = taken.text.strip_prefix('\u{feff}').context("no mark")?;
    let lines = text.strip_suffix("\r\n").context("no last line end")?;
    Ok((taken.name, lines.split("\r\n").map(str::to_owned).collect()))
}

/// Catches numbers that a German spreadsheet takes for words, and columns that it does not part.
#[test]
fn in_german_a_file_has_semicolons_and_decimal_commas() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(SECOND), |page| {
        language::speak_german(page)?;
        let (_, lines) = csv(page, "chart", 0)?;
        ensure!(
            lines[0].contains(";Übersetzung;Übersetzung, exakt;"),
            "{}",
            lines[0]
        );
        let ratio = (437.0 / 221.0_f64).to_string().replace('.', ",");
        let wanted = format!(";{ratio};437/221;");
        ensure!(
            lines[2].starts_with("2. Gang;") && lines[2].contains(&wanted),
            "{} has no {wanted}",
            lines[2]
        );
        Ok(())
    })
}

/// By hand: ratios and steps of the six-speed, from its fractions. Catches numbers cut as the page cuts
/// them, minus signs that no program reads, and fractions that are lost.
#[test]
fn a_table_is_a_file_with_numbers_in_full() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(SECOND), |page| {
        let (name, lines) = csv(page, "chart", 0)?;
        ensure!(name == "six-speed-three-sets-2nd-range-chart.csv", "{name}");
        let head = lines[0].split(",Ratio,").nth(1);
        ensure!(
            head == Some("\"Ratio, exact\",Step,\"Step, exact\",Efficiency in percent"),
            "{}",
            lines[0]
        );
        // 437/221 over 97/68 is 437 · 68 / (221 · 97) = 1748/1261.
        let second = lines[2].replace("Clutch K", "x").replace("Brake W", "x");
        let (step, ratio) = (1748.0 / 1261.0_f64, 437.0 / 221.0_f64);
        let wanted = format!(",{ratio},437/221,{step},1748/1261,");
        ensure!(second.starts_with("2nd,"), "{second}");
        ensure!(second.contains(&wanted), "{second} has no {wanted}");
        let last = lines.last().context("no lines")?;
        ensure!(
            last.starts_with("Reverse,") && last.contains(",-3,-3,,,"),
            "{last}"
        );

        let (name, lines) = csv(page, "members", 0)?;
        ensure!(name == "six-speed-three-sets-2nd-members.csv", "{name}");
        ensure!(
            lines[0] == "Shaft,Speed in rev/min,Per input turn,\"Per input turn, exact\",Motion",
            "{}",
            lines[0]
        );
        let output = lines.iter().find(|line| line.contains("221/437"));
        let speed = 221.0 / 437.0_f64;
        let wanted = format!(",{},{speed},221/437,forward", speed * 1000.0);
        ensure!(
            output.is_some_and(|line| line.ends_with(&wanted)),
            "{lines:?} has no {wanted}"
        );
        Ok(())
    })
}

/// Catches rows that hold all that could be chosen, or every reason that is folded. Without W the sun is free in
/// 2nd, and Q holds carrier 2 as in 1st: 323/143.
#[test]
fn faults_are_taken_away_as_they_are_read() -> Result<()> {
    page::open(View::LAPTOP, "#s=07-three-speed-one-way&on=W,H", |page| {
        page.unfold("faults")?;
        page.run(
            "for (const [list, value] of [['#faults-first', 'will-not-apply W '], ['[data-seen=R]', 'lost']]) { \
                const node = probe.one(list); node.value = value; node.dispatchEvent(new Event('change')); \
             }",
            Value::Null,
        )?;
        let (_, does) = csv(page, "faults", 0)?;
        ensure!(
            does[0] == "Range,Nothing broken,\"Nothing broken, exact\",Becomes",
            "{does:?}"
        );
        let ratio = 18.0 / 13.0_f64;
        let second = format!("2nd,{ratio},18/13,\"drives at 2.259, as 1st should\"");
        ensure!(does[3] == second, "{}, not {second}", does[3]);
        ensure!(
            does[6] == "All released,neutral,,as it should be",
            "{}",
            does[6]
        );
        let (_, seen) = csv(page, "faults", 1)?;
        ensure!(seen[0].ends_with(",Observed"), "{}", seen[0]);
        ensure!(seen[5].ends_with(",no drive"), "{}", seen[5]);
        ensure!(seen[4].ends_with(",not tried"), "{}", seen[4]);
        Ok(())
    })
}

/// Catches groups that are lost as rows come apart, and units that nobody is told.
#[test]
fn a_table_in_groups_says_in_every_row_where_it_belongs() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(SECOND), |page| {
        page.unfold("effort")?;
        let (_, lines) = csv(page, "effort", 0)?;
        ensure!(
            lines[0]
                == "Under,Set and member,Speed in rev/min,Exact share of the input speed,\
                    Torque in N·m,Exact share of the input torque,Power in kW,Exact share of the input power",
            "{}",
            lines[0]
        );
        let input = lines
            .iter()
            .find(|line| line.starts_with("Whole train,\"Input,"));
        ensure!(
            input.is_some_and(|line| line.contains(",1000,1,100,1,10.47")),
            "{lines:?}"
        );
        let output = lines
            .iter()
            .find(|line| line.starts_with("Whole train,\"Output,"));
        ensure!(
            output.is_some_and(|line| line.contains(",437/221,")),
            "{lines:?}"
        );
        Ok(())
    })
}

/// Catches names that a spreadsheet would work out, and such as break the columns.
#[test]
fn names_are_no_formulas_and_break_no_column() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(SECOND), |page| {
        page.get::<()>(
            "(async () => { const text = await (await fetch('scenarios/index.json')).json(); \
             const own = JSON.parse(text[0].text); \
             ['=1+1', '+A1', '@SUM(A1), \"x\"', '-2'].forEach((label, at) => { own.shafts[at].label = label; }); \
             await probe.host('lever-train').open(JSON.stringify(own)); })()",
            Value::Null,
        )?;
        page.rest()?;
        let (_, lines) = csv(page, "members", 0)?;
        let starts: Vec<_> = lines[1..].iter().map(|line| &line[..2]).collect();
        ensure!(
            lines.iter().any(|line| line.starts_with("'=1+1")),
            "{lines:?}"
        );
        ensure!(
            lines.iter().any(|line| line.starts_with("'+A1")),
            "{lines:?}"
        );
        ensure!(
            lines
                .iter()
                .any(|line| line.starts_with("\"'@SUM(A1), \"\"x\"\"")),
            "{lines:?}"
        );
        ensure!(
            starts
                .iter()
                .all(|start| !start.starts_with(['=', '+', '@', '-'])),
            "{lines:?}"
        );
        Ok(())
    })
}

/// Catches a file that holds only the rows that the page has got round to showing.
#[test]
fn all_combinations_are_in_the_file() -> Result<()> {
    const MANY: usize = 7;
    page::open(View::LAPTOP, "#s=01-one-set", |page| {
        let switches: usize = page.get("probe.all('[role=\"switch\"]').length", Value::Null)?;
        page.unfold("combinations")?;
        let (_, lines) = csv(page, "combinations", 0)?;
        ensure!(
            lines.len() == 1 + (1 << switches),
            "{} lines for {switches}",
            lines.len()
        );
        ensure!(switches >= MANY, "{switches} are few");
        Ok(())
    })
}

/// Catches a clipboard without the text that every spreadsheet takes, and fractions that become dates.
#[test]
fn a_table_is_copied_for_a_spreadsheet() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(SECOND), |page| {
        page.run(
            "Object.defineProperty(navigator, 'clipboard', { value: { write: async ([item]) => { \
                const read = async (type) => (await item.getType(type)).text(); \
                window.copied = [await read('text/plain'), await read('text/html')]; \
             } } })",
            Value::Null,
        )?;
        press(page, "members", 0, "copy")?;
        page.until("it is copied", "window.copied")?;
        let [text, markup]: [String; 2] = page.get("window.copied", Value::Null)?;
        let head = "Shaft\tSpeed in rev/min\tPer input turn\tPer input turn, exact\tMotion\n";
        ensure!(text.starts_with(head), "{text}");
        ensure!(text.contains("\t221/437\tforward"), "{text}");
        ensure!(markup.starts_with("<table><tr><td>Shaft</td>"), "{markup}");
        ensure!(
            markup.contains("<td style=\"mso-number-format:'\\@'\">221/437</td>"),
            "{markup}"
        );
        Ok(())
    })
}

/// Catches a page that says nothing where it is not let to the clipboard.
#[test]
fn that_nothing_can_be_copied_is_said() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(SECOND), |page| {
        page.run(
            "Object.defineProperty(navigator, 'clipboard', { value: undefined }); \
             const button = probe.one('[data-take=members]'); button.click(); \
             button.parentNode.querySelector('[data-as=copy]').click()",
            Value::Null,
        )?;
        page.until(
            "it says so",
            "probe.one('[data-take=members] ~ * [data-as=copy]').textContent === 'Cannot copy here: take CSV'",
        )?;
        ensure!(page.messages()?.is_empty(), "{:?}", page.messages()?);
        Ok(())
    })
}

/// Catches a menu that opens for a pointer only, that the next stop of the keyboard is not in, or that
/// stays.
#[test]
fn a_menu_is_opened_and_left_by_keys() -> Result<()> {
    const FOCUSED: &str = "probe.host('lever-train').shadowRoot.activeElement";
    page::open(View::LAPTOP, &by_hand::link(SECOND), |page| {
        let expanded = |page: &Page| -> Result<String> {
            page.get(
                "probe.one('[data-take=chart]').getAttribute('aria-expanded')",
                Value::Null,
            )
        };
        page.run("probe.one('[data-take=chart]').focus()", Value::Null)?;
        page.keys([Key::Enter])?;
        ensure!(expanded(page)? == "true", "it stays shut");
        page.keys([Key::Tab])?;
        let at: String = page.get(&format!("{FOCUSED}.dataset.as"), Value::Null)?;
        ensure!(at == "csv", "the next stop is {at}");
        page.keys([Key::Escape])?;
        ensure!(expanded(page)? == "false", "it stays open");
        let at: String = page.get(&format!("{FOCUSED}.dataset.take"), Value::Null)?;
        ensure!(at == "chart", "the focus is lost to {at}");
        Ok(())
    })
}

/// What a picture looks like: its size, and the colour of its corner.
#[derive(Debug, Deserialize)]
struct Look {
    name: String,
    size: (f64, f64),
    corner: [u8; 3],
}

fn look(page: &Page, of: &str, at: usize, kind: &str) -> Result<Look> {
    press(page, of, at, kind)?;
    page.until("the picture is made", "window.taken")?;
    page.get(
        "(async () => { \
            const { name, blob } = window.taken; \
            const image = new Image(); image.src = URL.createObjectURL(blob); await image.decode(); \
            const canvas = document.createElement('canvas'); \
            [canvas.width, canvas.height] = [image.naturalWidth, image.naturalHeight]; \
            const pen = canvas.getContext('2d'); pen.drawImage(image, 0, 0); \
            return { name, size: [canvas.width, canvas.height], corner: [...pen.getImageData(1, 1, 1, 1).data].slice(0, 3) }; \
        })()",
        Value::Null,
    )
}

const LIGHT: [u8; 3] = [0xfb, 0xf9, 0xf4];
const DARK: [u8; 3] = [0x14, 0x19, 0x1d];

/// Catches figures of a dark page that can be had only dark, such as are not offered at all, and
/// pictures too coarse for print.
#[test]
fn every_figure_is_to_be_had_light_and_fine() -> Result<()> {
    const PANELS: [(&str, &str); 5] = [
        ("flow", "power-flow"),
        ("shifts", "shifts"),
        ("timed", "shift-in-time"),
        ("operating", "operating-diagram"),
        ("end-view", "set-1-seen-along-the-axis"),
    ];
    page::open(View::LAPTOP.dark(), &by_hand::link(SECOND), |page| {
        for (panel, _) in PANELS {
            page.unfold(panel)?;
        }
        page.until(
            "the shifts are found",
            "probe.one('.shift-nodes').children.length",
        )?;
        page.rest()?;
        let on_stage = [("stage", 0, "half-section"), ("stage", 1, "lever-diagram")];
        // The operating panel begins with a table.
        let in_panels =
            PANELS.map(|(panel, what)| (panel, usize::from(panel == "operating"), what));
        for (of, at, what) in on_stage.into_iter().chain(in_panels) {
            let start = format!("six-speed-three-sets-2nd-{what}");
            let svg = look(page, of, at, "svg-light")?;
            let png = look(page, of, at, "png-light")?;
            let shown = look(page, of, at, "png")?;
            ensure!(svg.name == format!("{start}.svg"), "{svg:?}");
            ensure!(png.name == format!("{start}.png"), "{png:?}");
            ensure!(
                svg.corner == LIGHT && png.corner == LIGHT,
                "{svg:?} {png:?}"
            );
            ensure!(shown.corner == DARK, "{shown:?}");
            let finer = (png.size.0 / svg.size.0, png.size.1 / svg.size.1);
            ensure!(
                (finer.0 - 3.0).abs() < 0.02 && (finer.1 - 3.0).abs() < 0.02,
                "{png:?} {svg:?}"
            );
        }
        Ok(())
    })
}

/// Catches a map of timings that cannot be taken away, or only as the other picture of its panel.
#[test]
fn a_map_of_timings_is_to_be_had() -> Result<()> {
    page::open(View::LAPTOP.dark(), &by_hand::link(SECOND), |page| {
        page.unfold("timed")?;
        page.until(
            "it can be begun",
            "probe.one('[data-part=timed-map-begin]')",
        )?;
        page.click("[data-part=timed-map-begin]")?;
        page.until(
            "the map is there",
            "probe.one('[data-part=timed-map-told]').textContent !== ''",
        )?;
        page.rest()?;
        let figures: Vec<usize> = page.get(
            "(() => { const button = probe.one('[data-take=timed]'); button.click(); \
                const groups = [...button.parentNode.querySelectorAll('.take-group')]; \
                const found = groups.flatMap((group, at) => group.querySelector('[data-as=svg-light]') ? [at] : []); \
                button.click(); return found; })()",
            Value::Null,
        )?;
        ensure!(figures.len() == 2, "{figures:?}");
        let shift = look(page, "timed", figures[0], "svg-light")?;
        let map = look(page, "timed", figures[1], "svg-light")?;
        ensure!(map.corner == LIGHT && map.size.0 > 200.0, "{map:?}");
        ensure!(
            map.name != shift.name && map.size != shift.size,
            "{map:?} {shift:?}"
        );
        let png = look(page, "timed", figures[1], "png-light")?;
        ensure!(
            (png.size.0 / map.size.0 - 3.0).abs() < 0.02,
            "{png:?} {map:?}"
        );
        Ok(())
    })
}

/// By hand: 1st applies W and J, 2nd W and K, and 46/17 over 437/221 is 26/19. Catches a file that has only the
/// shifts from the range that is chosen.
#[test]
fn shifts_between_all_ranges_are_in_the_file() -> Result<()> {
    const RANGES: usize = 7;
    page::open(View::LAPTOP, &by_hand::link(SECOND), |page| {
        page.unfold("shifts")?;
        page.until(
            "the shifts are found",
            "probe.one('.shift-nodes').children.length",
        )?;
        let (_, lines) = csv(page, "shifts", 1)?;
        ensure!(lines.len() == 1 + RANGES * (RANGES - 1), "{lines:?}");
        let first = lines.iter().find(|line| line.starts_with("1st → 2nd,"));
        let first = first.context("no first shift")?;
        ensure!(
            first == "1st → 2nd,single,J,K,1.368421052631579,26/19",
            "{first}"
        );
        Ok(())
    })
}
