//! The maker's shop, kept in a file of its own beside the printers, which window and commands read.
//!
//! A file that cannot be read is reported and left alone, and a value that suits no field is reported and skipped: neither keeps
//! the program from starting.

use std::collections::BTreeMap;
use std::path::PathBuf;

use board::{Board, Field, Shop, Units, Value, article_now, field};
use serde::{Deserialize, Serialize};
use serde_json::Value as Json;

use crate::host::Host;

/// The format number that this program writes, and the newest it reads.
const FORMAT: u32 = 1;
/// The name of the file in the folder of settings.
const NAME: &str = "shop.json";
/// The largest file that is read, in bytes; a shop takes a few thousand.
const LARGEST: u64 = 1024 * 1024;

/// The shop, and its file.
#[derive(Debug, Default)]
pub struct KeptShop {
    /// The shop as it is now.
    pub shop: Shop,
    /// The shop in the file, or the one that was last to be written there.
    kept: Shop,
    /// The reason why the file cannot be read, or the values in it that are skipped.
    fault: Option<String>,
    /// Whether the file must be left alone.
    is_broken: bool,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Whole {
    format: u32,
    /// Values by the paths of the board file.
    shop: BTreeMap<String, Json>,
}

impl KeptShop {
    /// The shop of the maker's file; an empty one where there is no file.
    pub fn load(host: &dyn Host) -> Self {
        let Some(path) = place(host).filter(|path| host.exists(path)) else {
            return Self::default();
        };
        let read = host.read(&path, LARGEST).map_err(|fault| fault.to_string());
        match read.and_then(|bytes| whole(&bytes)) {
            Ok(whole) => Self::of(&whole),
            Err(reason) => Self {
                fault: Some(format!(
                    "your shop cannot be read, {reason}; the file is left alone: {}",
                    path.display()
                )),
                is_broken: true,
                ..Self::default()
            },
        }
    }

    fn of(whole: &Whole) -> Self {
        let (mut shop, mut unsuited) = (Shop::default(), Vec::new());
        for (path, json) in &whole.shop {
            let is_kept = field::find(path).is_some_and(|(field, entry)| {
                value_of(field, json)
                    .is_some_and(|value| shop.keep(field, entry, now(field, value)))
            });
            if !is_kept {
                unsuited.push(path.as_str());
            }
        }
        let fault = (!unsuited.is_empty())
            .then(|| format!("passed over in your shop: {}", unsuited.join(", ")));
        Self {
            kept: shop.clone(),
            shop,
            fault,
            is_broken: false,
        }
    }

    /// The fault of the maker's file, if it has one.
    pub fn fault(&self) -> Option<&str> {
        self.fault.as_deref()
    }

    /// Takes what another window has kept since this one read the file, unless something of ours is still to be written.
    pub fn refresh(&mut self, host: &dyn Host) {
        if self.is_broken || self.shop != self.kept {
            return;
        }
        let now = Self::load(host);
        if !now.is_broken {
            (self.kept, self.shop) = (now.kept, now.shop);
        }
    }

    /// Writes the file if the shop has changed; a sentence where that went wrong, which the next change tries again.
    pub fn keep(&mut self, host: &dyn Host) -> Option<String> {
        if self.is_broken || self.shop == self.kept {
            return None;
        }
        self.kept = self.shop.clone();
        let path = place(host)?;
        let made = path
            .parent()
            .map_or(Ok(()), |folder| host.make_folder(folder));
        let written = made.and_then(|()| host.write(&path, text(&self.shop).as_bytes()));
        let failed = written.err()?;
        Some(format!("your shop is not kept: {failed}"))
    }
}

/// The unit that a maker's boards were last shown in.
pub fn units_of(shop: &Shop) -> Option<Units> {
    let mut board = Board::default();
    let value = shop.value(&field::UNITS, 0)?;
    field::UNITS.set(&mut board, 0, value);
    Some(board.units)
}

/// Says which fields of the shop would stop a board; none where none would.
pub fn left_out_words(left_out: &[&Field]) -> Option<String> {
    let names: Vec<String> = left_out.iter().map(|field| field.label(0)).collect();
    (!names.is_empty()).then(|| {
        format!(
            "left out of your shop, as it would stop this board: {}",
            names.join(", ")
        )
    })
}

fn place(host: &dyn Host) -> Option<PathBuf> {
    host.settings_folder().map(|folder| folder.join(NAME))
}

fn whole(bytes: &[u8]) -> Result<Whole, String> {
    let json: Json = serde_json::from_slice(bytes).map_err(|fault| fault.to_string())?;
    match json.get("format").and_then(Json::as_u64) {
        Some(found) if found > u64::from(FORMAT) => Err("a newer Ringwright wrote it".into()),
        _ => serde_json::from_value(json).map_err(|fault| fault.to_string()),
    }
}

fn text(shop: &Shop) -> String {
    let written = |(field, entry, value): (&'static Field, usize, &Value)| {
        (field.path_of(entry), json_of(field, value))
    };
    let whole = Whole {
        format: FORMAT,
        shop: shop.values().map(written).collect(),
    };
    // Words and numbers can always be written as JSON.
    serde_json::to_string_pretty(&whole).unwrap_or_default() + "\n"
}

/// The words that board files have for the choices of a field.
fn words(field: &Field) -> Vec<String> {
    let brought = field.brought(&Board::default());
    brought.map_or_else(Vec::new, |board| field.words(&board, 0))
}

fn json_of(field: &Field, value: &Value) -> Json {
    match value {
        Value::Number(number) => (*number).into(),
        Value::Open => Json::Null,
        Value::Choice(place) => words(field).get(*place).cloned().into(),
        Value::Tick(on) => (*on).into(),
        Value::Color(color) => color.to_string().into(),
        Value::Text(text) => text.as_str().into(),
        Value::Numbers(numbers) => numbers.clone().into(),
        Value::Entries(count) => (*count).into(),
    }
}

/// A value as it is called now: articles have got other names since their price was typed.
fn now(field: &Field, value: Value) -> Value {
    match value {
        Value::Text(article) if *field == field::ARTICLE => {
            Value::Text(article_now(&article).into_owned())
        }
        value => value,
    }
}

fn value_of(field: &Field, json: &Json) -> Option<Value> {
    Some(match (field.kind, json) {
        (board::Kind::Choice, Json::String(word)) => {
            Value::Choice(words(field).iter().position(|known| known == word)?)
        }
        (board::Kind::Entries(_), Json::Number(count)) => {
            Value::Entries(usize::try_from(count.as_u64()?).ok()?)
        }
        (_, Json::Null) => Value::Open,
        (_, Json::Bool(on)) => Value::Tick(*on),
        (_, Json::Number(number)) => Value::Number(number.as_f64()?),
        (board::Kind::Color | board::Kind::AutoColor(_), Json::String(text)) => {
            Value::Color(text.parse().ok()?)
        }
        (_, Json::String(text)) => Value::Text(text.clone()),
        (_, Json::Array(numbers)) => {
            Value::Numbers(numbers.iter().map(Json::as_f64).collect::<Option<_>>()?)
        }
        (_, Json::Object(_)) => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fake::Fake;
    use board::{BitRun, Bottom, Machine, Paper};

    const FILE: &str = "/home/maker/settings/shop.json";

    fn learned() -> Shop {
        let before = Board {
            machine: Some(Machine::default()),
            ..Board::default()
        };
        let mut after = before.clone();
        after.template.paper = Paper::Letter;
        after.panel.planer = 317.5;
        after.jig.plates = vec![24, 60];
        after.jig.throat = Some(160.0);
        let bit = BitRun::unsettled(12.7, Bottom::Forstner);
        after.machine.as_mut().unwrap().bits = vec![
            bit,
            BitRun {
                peck: Some(3.0),
                ..bit
            },
        ];
        let mut shop = Shop::default();
        shop.learn(&before, &after);
        shop
    }

    #[test]
    fn a_shop_is_read_as_it_was_kept() {
        let fake = Fake::new();
        let mut kept = KeptShop::load(&fake);
        assert_eq!(kept.keep(&fake), None);
        assert_eq!(fake.file(FILE), None, "nothing to keep, and no file");
        kept.shop = learned();
        assert_eq!(kept.keep(&fake), None);
        let again = KeptShop::load(&fake);
        assert_eq!((again.fault(), &again.shop), (None, &learned()));
        let text = String::from_utf8(fake.file(FILE).unwrap()).unwrap();
        assert!(text.contains("\"template.paper\": \"letter\""), "{text}");
    }

    #[test]
    fn a_price_under_an_older_name_is_found_under_that_of_now() {
        let fake = Fake::new();
        let text = r#"{"format": 1, "shop": {"price.articles": 1, "price.articles[0].article": "flat-bit-12.7",
            "price.articles[0].price": 9.5}}"#;
        fake.put(FILE, text.as_bytes());
        let mut board = Board::default();
        KeptShop::load(&fake).shop.give(&mut board);
        let price = board.price.of("straight-bit-12.7").unwrap();
        assert_eq!(price.price, Some(9.5));
    }

    #[test]
    fn a_value_that_suits_no_field_is_passed_over_and_told() {
        let fake = Fake::new();
        let text = r#"{"format": 1, "shop": {"panel.planer_mm": -3, "pitch_mm": 20, "template.paper": "papyrus",
            "template.margin_mm": "wide", "machine.bits": -1, "jig.nothing": 1, "jig.kerf_mm": 3.175}}"#;
        fake.put(FILE, text.as_bytes());
        let kept = KeptShop::load(&fake);
        let paths: Vec<_> = kept.shop.values().map(|(field, ..)| field.path).collect();
        assert_eq!(paths, ["jig.kerf_mm"]);
        let fault = kept.fault().unwrap();
        for path in [
            "panel.planer_mm",
            "pitch_mm",
            "template.paper",
            "jig.nothing",
        ] {
            assert!(fault.contains(path), "{fault}");
        }
    }

    #[test]
    fn a_broken_file_is_told_and_left_alone() {
        for bytes in [
            "",
            "[",
            "[]",
            "{\"format\": 2, \"shop\": {}}",
            "{\"format\": 1}",
        ] {
            let fake = Fake::new();
            fake.put(FILE, bytes.as_bytes());
            let mut kept = KeptShop::load(&fake);
            assert!(kept.fault().unwrap().contains("left alone"), "{bytes}");
            kept.shop = learned();
            assert_eq!(kept.keep(&fake), None);
            assert_eq!(fake.file(FILE).unwrap(), bytes.as_bytes());
        }
    }
}
