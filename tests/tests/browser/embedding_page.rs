//! The page that tells how to embed: what it lists is what there is, and its samples are what their markup says.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use anyhow::{Context, Result, ensure};
use levertrain_tests::browser::{Page, View, own_site, page, skipped};
use levertrain_tests::files::{root, scripts};
use serde_json::{Value, json};

type Names = BTreeSet<String>;

pub fn open(view: View, test: impl FnOnce(&mut Page) -> Result<()>) -> Result<()> {
    if skipped() {
        return Ok(());
    }
    // Each test has a site of its own: making one takes another away.
    let name = std::thread::current()
        .name()
        .unwrap_or("embedding")
        .replace(':', "-");
    let name = format!("{name}-{}", view.width);
    let site = own_site::make(Path::new(env!("CARGO_TARGET_TMPDIR")).join(name), &[])?;
    page::open_in(&site, view, "embedding.html", test)
}

/// What stands in an attribute all over the page.
fn listed(page: &Page, attribute: &str) -> Result<Names> {
    page.get(
        "[...document.querySelectorAll(`[${args}]`)].map((node) => node.getAttribute(args))",
        json!(attribute),
    )
}

/// What follows `before` in the scripts of the page, up to the next quote.
fn written(before: &str, files: &[&str]) -> Result<Names> {
    let mut found = Names::new();
    for path in scripts(&root().join("www"))? {
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        if !files.is_empty() && !files.contains(&name.as_ref()) {
            continue;
        }
        let text = fs::read_to_string(&path)?;
        let after = text.split(before).skip(1);
        found.extend(
            after
                .filter_map(|rest| rest.split('"').next())
                .map(str::to_owned),
        );
    }
    ensure!(!found.is_empty(), "nothing is written after {before}");
    Ok(found)
}

fn same(what: &str, told: &Names, there: &Names) -> Result<()> {
    let missing: Vec<_> = there.difference(told).collect();
    let gone: Vec<_> = told.difference(there).collect();
    ensure!(
        missing.is_empty() && gone.is_empty(),
        "{what}: not told {missing:?}, told though there is none {gone:?}"
    );
    Ok(())
}

/// Catches an attribute, a method, an event, a part or a message that the page does not tell of, and one that it
/// tells of and that is none.
#[test]
fn it_lists_what_there_is() -> Result<()> {
    open(View::LAPTOP, |page| {
        let once = fs::read_to_string(root().join("www/page/wishes.js"))?;
        let once = once
            .split("READ_ONCE = [")
            .nth(1)
            .and_then(|rest| rest.split(']').next())
            .context("READ_ONCE")?;
        let mut attributes: Names = page.get(
            "customElements.get('lever-train').observedAttributes",
            Value::Null,
        )?;
        attributes.extend(
            once.split(',')
                .map(|name| name.trim().trim_matches('"').to_owned()),
        );
        same("attributes", &listed(page, "data-attribute")?, &attributes)?;

        let members: Names = page.get(
            "Object.getOwnPropertyNames(customElements.get('lever-train').prototype) \
                .filter((name) => !/^constructor$|Callback$/.test(name))",
            Value::Null,
        )?;
        let members = members.difference(&attributes).cloned().collect();
        same(
            "methods and properties",
            &listed(page, "data-member")?,
            &members,
        )?;

        same(
            "events",
            &listed(page, "data-event")?,
            &written("CustomEvent(\"levertrain-", &[])?
                .iter()
                .map(|name| format!("levertrain-{name}"))
                .collect(),
        )?;
        page.run(
            "const node = document.createElement('lever-train'); node.id = 'whole'; node.with = 'all'; \
             document.querySelector('main').prepend(node)",
            Value::Null,
        )?;
        page.until("it is open", "probe.isOpen('#whole')")?;
        let parts: Names = page.get(
            "probe.all('[part]', '#whole').flatMap((node) => [...node.part])",
            Value::Null,
        )?;
        same("parts", &listed(page, "data-css-part")?, &parts)?;
        same(
            "messages from a frame",
            &listed(page, "data-message")?,
            &written("tell(\"", &["frame.js"])?,
        )?;
        let frame = fs::read_to_string(root().join("www/frame.js"))?;
        let commands = frame
            .split("const COMMANDS = {")
            .nth(1)
            .and_then(|rest| rest.split("\n};").next());
        let commands: Names = commands
            .context("COMMANDS")?
            .lines()
            .filter_map(|line| line.strip_prefix("  ")?.split_once(": {"))
            .map(|(name, _)| name.to_owned())
            .filter(|name| name.chars().all(char::is_alphabetic))
            .collect();
        same(
            "messages to a frame",
            &listed(page, "data-command")?,
            &commands,
        )
    })
}

/// Catches a name that an attribute takes and the page does not tell of, or the other way round: the message about a
/// wrong one lists them all.
#[test]
fn it_lists_what_attributes_take() -> Result<()> {
    open(View::LAPTOP, |page| {
        page.run(
            "const node = document.createElement('lever-train'); node.id = 'wrong'; node.scenario = '01-one-set'; \
             document.querySelector('main').prepend(node)",
            Value::Null,
        )?;
        page.until("it is open", "probe.isOpen('#wrong')")?;
        for attribute in ["with", "views", "locked", "theme", "shows"] {
            page.run(
                "window.told = undefined; const node = probe.host('#wrong'); \
                 node.addEventListener('levertrain-error', ({ detail }) => (window.told = detail.message), { once: true }); \
                 node[args] = 'no-such'",
                json!(attribute),
            )?;
            page.until(attribute, "window.told")?;
            let told: String = page.get("window.told", Value::Null)?;
            let known = told
                .split("use ")
                .nth(1)
                .and_then(|rest| rest.split(", or leave").next());
            let known: Names = known
                .context("no list")?
                .split(", ")
                .map(str::to_owned)
                .collect();
            let listed: Names = page.get(
                "[...document.querySelectorAll(`[data-values=${args}] code:not([data-elsewhere])`)].map((node) => node.textContent)",
                json!(attribute),
            )?;
            same(attribute, &listed, &known)?;
            page.run(
                "probe.host('#wrong').removeAttribute(args)",
                json!(attribute),
            )?;
        }
        Ok(())
    })
}

/// Catches markup that says something else than what stands beside it, a sample that does not start or complains,
/// and one that starts before it is scrolled to.
#[test]
fn its_samples_are_what_their_markup_says() -> Result<()> {
    open(View::LAPTOP, |page| {
        let begun: usize = page.get(
            "[...document.querySelectorAll('lever-train')].filter((node) => node.answer).length",
            Value::Null,
        )?;
        ensure!(begun < 4, "{begun} have started");
        let wrong: Vec<String> = page.get(
            "[...document.querySelectorAll('.sample')].flatMap((sample) => { \
                const said = new DOMParser().parseFromString(sample.querySelector('pre').textContent.replace(/<style>[^]*<\\/style>/, ''), 'text/html'); \
                const attributes = (node) => JSON.stringify([...node.attributes].map(({ name, value }) => [name, value]) \
                    .filter(([name]) => name !== 'loading' && name !== 'data-frame').sort()); \
                const written = [...said.querySelectorAll('lever-train')].map(attributes); \
                const live = [...sample.querySelectorAll('lever-train')].map((node) => { \
                    const copy = node.cloneNode(); copy.removeAttribute('data-theme'); copy.removeAttribute('data-frame'); return attributes(copy); }); \
                const frames = said.querySelectorAll('iframe').length === sample.querySelectorAll('iframe').length; \
                return frames && written.join() === live.join() ? [] : [`${written} and ${live}`]; \
            })",
            Value::Null,
        )?;
        ensure!(wrong.is_empty(), "{wrong:?}");
        page.run(
            "window.errors = []; addEventListener('levertrain-error', ({ detail }) => errors.push(detail.message))",
            Value::Null,
        )?;
        let count: usize = page.get(
            "document.querySelectorAll('lever-train').length",
            Value::Null,
        )?;
        ensure!(count >= 8, "{count} samples");
        for at in 0..count {
            let node = format!("document.querySelectorAll('lever-train')[{at}]");
            page.run(&format!("{node}.scrollIntoView()"), Value::Null)?;
            page.until("it is open", &format!("{node}.answer"))?;
        }
        page.rest()?;
        let errors: Vec<String> = page.get("errors", Value::Null)?;
        ensure!(errors.is_empty(), "{errors:?}");

        for (action, told, says) in [
            ("apply", "script", "ratio.fraction is"),
            ("none", "script", "stateWords is"),
        ] {
            page.run(
                "document.querySelector(`[data-do=${args}]`).click()",
                json!(action),
            )?;
            page.until(
                action,
                &format!(
                    "document.querySelector('[data-told={told}]').textContent.startsWith('{says}')"
                ),
            )?;
        }
        page.click_in("#heard", ".range-buttons [data-range-id=\"direct\"]")?;
        page.until(
            "it is heard",
            "document.querySelector('[data-told=events]').textContent.startsWith('heard, direct')",
        )?;
        page.run(
            "document.querySelector('#talks').scrollIntoView()",
            Value::Null,
        )?;
        page.until("it fits", "document.querySelector('#talks').height > 400")?;
        page.run(
            "document.querySelector('[data-do=message]').click()",
            Value::Null,
        )?;
        page.until(
            "it answers",
            "document.querySelector('[data-told=frame]').textContent.startsWith('reply 1')",
        )
    })
}

/// Catches a policy that is told differently here than in README, links that lead nowhere, and a page that must be
/// scrolled sideways on a phone.
#[test]
fn it_is_read_on_a_phone() -> Result<()> {
    let narrow = View {
        width: 320,
        ..View::PHONE
    };
    open(narrow, |page| {
        let readme = fs::read_to_string(root().join("README.md"))?;
        let policy = readme
            .lines()
            .map(str::trim)
            .find(|line| line.starts_with("script-src HOST"));
        let told: Vec<String> = page.get(
            "[...document.querySelectorAll('pre')].map((node) => node.textContent)",
            Value::Null,
        )?;
        ensure!(
            told.iter().any(|text| Some(text.as_str()) == policy),
            "{policy:?}"
        );
        let dead: Vec<String> = page.get(
            "(async () => { \
                const links = [...document.querySelectorAll('a')]; \
                const found = await Promise.all(links.map(async (link) => \
                    link.hash ? Boolean(document.querySelector(link.hash)) : (await fetch(link.href)).ok)); \
                return links.filter((_, at) => !found[at]).map((link) => link.href); \
            })()",
            Value::Null,
        )?;
        ensure!(dead.is_empty(), "{dead:?}");
        let wide: [f64; 2] = page.get(
            "[document.documentElement.scrollWidth, document.documentElement.clientWidth]",
            Value::Null,
        )?;
        ensure!(wide[0] <= wide[1], "{wide:?}");
        Ok(())
    })
}
