//! Links that hold a whole train.

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Page, View, page};
use serde_json::{Value, json};

use crate::by_hand::{self, FIRST};

/// The code for so many megabytes of blanks, made as the page makes its own.
const BOMB: &str = "(async () => { \
    const blanks = new Blob(Array(args).fill(' '.repeat(1 << 20))); \
    const packed = blanks.stream().pipeThrough(new CompressionStream('deflate-raw')); \
    const bytes = new Uint8Array(await new Response(packed).arrayBuffer()); \
    let letters = ''; \
    for (const byte of bytes) letters += String.fromCharCode(byte); \
    return btoa(letters).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', ''); \
})()";

fn link(page: &Page) -> Result<String> {
    page.unfold("share")?;
    page.until(
        "the link is there",
        "probe.one('[data-part=link]').value.includes('#f=')",
    )?;
    page.get("probe.one('[data-part=link]').value", Value::Null)
}

/// Catches a link that leaves out what was changed, and one whose train is gone with a reload. By hand:
/// 1 + 87/58 = 5/2 (Willis' relation; see the tests of the form).
#[test]
fn a_link_holds_a_changed_train() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        page.unfold("edit")?;
        page.until(
            "the form is there",
            "probe.all('[data-part=edit] [data-set]').length === 3",
        )?;
        page.run(
            "(() => { const field = probe.all('[data-part=edit] [data-key]') \
                .find((node) => node.dataset.key === 'teeth p2 0'); \
                field.value = '58'; field.dispatchEvent(new Event('input')); })()",
            Value::Null,
        )?;
        ensure!(page.seen()?.exact.as_deref() == Some("5/2"));
        let link = link(page)?;
        ensure!(link.len() < 2500, "{} characters", link.len());

        // As somebody else's browser, who never saw it.
        page.until("it is kept", "localStorage.length > 0")?;
        page.run("localStorage.clear(); sessionStorage.clear()", Value::Null)?;
        let (_, fragment) = link.split_once('#').unwrap_or_default();
        page.goto(&format!("#{fragment}"))?;
        for time in ["opened", "reloaded"] {
            let seen = page.seen()?;
            ensure!(seen.exact.as_deref() == Some("5/2"), "{time}: {seen:?}");
            ensure!(seen.applied == ["J", "W"], "{time}: {seen:?}");
            ensure!(
                page.messages()?.is_empty(),
                "{time}: {:?}",
                page.messages()?
            );
            page.reload()?;
        }
        Ok(())
    })
}

/// Catches codes that hang the page, fill its memory or end in silence.
#[test]
fn a_broken_train_is_told_and_a_long_one_is_cut_off() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        let bomb: String = page.get(BOMB, json!(5))?;
        ensure!(bomb.len() < 20_000, "{}", bomb.len());
        let before = page.seen()?;
        for code in ["xx", "", "%00", "AAAA", bomb.as_str()] {
            page.run("location.hash = args", json!(format!("f={code}")))?;
            page.until("it says so", "probe.one('[data-part=message]')")?;
            let told = page.messages()?.join(" ");
            ensure!(told.contains("link") || told.contains("line"), "{told}");
            let seen = page.seen()?;
            ensure!(seen.exact == before.exact, "{code:.20}: {seen:?}");
            page.click("[data-part=dismiss]")?;
        }
        Ok(())
    })
}
