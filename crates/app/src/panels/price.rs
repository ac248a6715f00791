//! Controls of shopping and price: rates, the list of what is bought with a price beside each, and the totals.

use board::{ArticlePrice, Board, Field, Measure, Quantity, Units, Value, field, show_number};
use egui::{Grid, TextEdit, Ui, vec2};
use workshop::{Costing, Money, PricedLine, Shelf, SoldBy, Workpiece};

use super::rows::{amount, remark};
use crate::current::Current;
use crate::theme;
use crate::widgets::{
    fields_ui, keep_fault, look_like_a_field, row_width, show_fault, text_in, words_width,
};

/// Width of a price, of a pack, of the box that says whether the shop has it, and between them; the names have the rest of a row.
const PRICE: f32 = 64.0;
const PACK: f32 = 62.0;
const HAVE: f32 = 32.0;
const BETWEEN: f32 = 4.0;

/// Controls of the shopping list, its prices, and the price for the customer.
pub fn price_ui(ui: &mut Ui, board: &mut Board, current: &Current) {
    let is_rate = |field: &&&Field| **field != &field::ARTICLES;
    let rates: Vec<&Field> = field::PRICE_FIELDS
        .iter()
        .filter(is_rate)
        .copied()
        .collect();
    fields_ui(ui, board, &rates);
    let Some(workpiece) = current.good() else {
        return;
    };
    totals_ui(ui, board, workpiece.costing());
    prices_ui(ui, board, workpiece);
}

/// The words of the quote.
pub fn quote_ui(ui: &mut Ui, board: &mut Board) {
    fields_ui(ui, board, field::QUOTE_FIELDS);
    remark(
        ui,
        "The export Quote has a page for the customer and one for the shop.",
    );
}

/// The main sums in large type, and the prices missing in them.
fn totals_ui(ui: &mut Ui, board: &Board, costing: &Costing) {
    ui.add_space(theme::GAP);
    let shown = |money: Money| so_far(money, costing, costing.missing.is_empty());
    let boards = match costing.boards {
        1 => "1 board".to_owned(),
        boards => format!("{boards} boards"),
    };
    large_ui(ui, &format!("Cost of {boards}"), &shown(costing.cost));
    if let Some(sale) = costing.sale {
        if costing.boards > 1 {
            large_ui(ui, "Price of one", &shown(sale.each));
        }
        large_ui(ui, "Price before tax", &shown(sale.net));
        large_ui(ui, "Price with tax", &shown(sale.total));
    } else {
        large_ui(ui, "Price", "none at this margin");
    }
    parts_ui(ui, board, costing);
    match costing.missing.len() {
        0 => {}
        1 => remark(ui, "1 price is missing; the cost leaves it out."),
        count => remark(
            ui,
            &format!("{count} prices are missing; the cost leaves them out."),
        ),
    }
}

/// A sum, or as much of it as is known while prices are missing.
fn so_far(money: Money, costing: &Costing, is_known: bool) -> String {
    let shown = money.shown(costing.currency);
    match (is_known, money.minor) {
        (true, _) => shown,
        (false, 0) => "not known yet".into(),
        (false, _) => format!("at least {shown}"),
    }
}

/// The parts of the cost, each with what it follows from.
fn parts_ui(ui: &mut Ui, board: &Board, costing: &Costing) {
    let shown = |money: Money| money.shown(costing.currency);
    amount(
        ui,
        "Material",
        &so_far(costing.material, costing, costing.is_material_priced()),
        "From the shopping list and your prices",
    );
    let hours = Measure::hours(costing.minutes() / 60.0).shown(Units::Mm);
    let time = costing
        .time
        .map_or_else(|| "no hourly rate".to_owned(), shown);
    amount(
        ui,
        "Time",
        &format!("{hours}, {time}"),
        "Hands-on time of the plan, at your hourly rate",
    );
    let is_known = board.price.overhead == 0.0 || costing.missing.is_empty();
    amount(
        ui,
        "Overhead",
        &so_far(costing.overhead, costing, is_known),
        "Its share of material and time",
    );
    if costing.left_over.minor > 0 {
        amount(
            ui,
            "Left over in packs",
            &shown(costing.left_over),
            "What the packs hold beyond what is used",
        );
    }
    if costing.tools.minor > 0 {
        amount(
            ui,
            "Tools, not charged",
            &shown(costing.tools),
            "From the shopping list: what you keep",
        );
    }
}

/// A sum in large figures: beside its caption where both have room, otherwise below it.
fn large_ui(ui: &mut Ui, caption: &str, value: &str) {
    let figure = theme::figure(value);
    let gap = ui.spacing().item_spacing.x;
    let wide = words_width(ui, caption) + gap + words_width(ui, figure.clone());
    if wide > row_width(ui) {
        ui.label(caption);
    }
    let size = vec2(row_width(ui), ui.spacing().interact_size.y);
    let line = egui::Layout::left_to_right(egui::Align::Center);
    ui.allocate_ui_with_layout(size, line, |ui| {
        if wide <= row_width(ui) {
            ui.label(caption);
        }
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            ui.label(figure);
        });
    });
}

/// Every line of the shopping list that contains the words searched for, shelf by shelf.
fn prices_ui(ui: &mut Ui, board: &mut Board, workpiece: &Workpiece) {
    let sought = sought_ui(ui);
    let mut told: Vec<&str> = Vec::new();
    let costing = workpiece.costing();
    for shelf in Shelf::ALL {
        let lines: Vec<&PricedLine> = costing
            .lines
            .iter()
            .filter(|line| line.line.shelf == shelf && is_sought(line, &sought))
            .filter(|line| {
                let is_new = !told.contains(&line.line.article.as_str());
                told.push(&line.line.article);
                is_new
            })
            .collect();
        if lines.is_empty() {
            continue;
        }
        ui.add_space(theme::GAP);
        ui.label(theme::bold(shelf.label()));
        let table = Grid::new(shelf.label())
            .striped(true)
            .spacing([BETWEEN, 4.0]);
        table.show(ui, |ui| {
            for head in ["", "Price", "Per", "Have"] {
                ui.label(theme::quiet(head));
            }
            ui.end_row();
            for line in lines {
                line_ui(ui, board, line, costing);
                ui.end_row();
            }
        });
    }
}

/// The words to search lines for.
fn sought_ui(ui: &mut Ui) -> String {
    let kept = ui.scope_id().with("sought");
    let mut sought = ui
        .data(|data| data.get_temp::<String>(kept))
        .unwrap_or_default();
    ui.add_space(theme::GAP);
    ui.horizontal(|ui| {
        let label = ui.label("Find").id;
        let edit = TextEdit::singleline(&mut sought)
            .hint_text("marble, lumber, missing")
            .desired_width(row_width(ui) - 40.0);
        look_like_a_field(ui);
        if ui.add(edit).labelled_by(label).changed() {
            ui.data_mut(|data| data.insert_temp(kept, sought.clone()));
        }
    });
    sought.trim().to_lowercase()
}

/// Whether words are in the name of a line or the shelf; `missing` finds what has no price.
fn is_sought(line: &PricedLine, sought: &str) -> bool {
    let missing = if line.price.is_none() { "missing" } else { "" };
    let words = format!("{} {} {missing}", line.line.name, line.line.shelf.label());
    words.to_lowercase().contains(sought)
}

/// The numbers that the amount and the cost of a line follow from.
const OF_LINE: &str =
    "What all boards of the order need, in whole packs, times your price of a pack";

/// A line of the list: its name and amount, its price, the pack that the price is for, and whether the shop has it.
fn line_ui(ui: &mut Ui, board: &mut Board, line: &PricedLine, costing: &Costing) {
    let units = board.units;
    let to_buy = &line.line;
    ui.vertical(|ui| {
        ui.set_width(row_width(ui) - PRICE - PACK - HAVE - 3.0 * BETWEEN);
        ui.spacing_mut().item_spacing.y = 1.0;
        ui.add(egui::Label::new(&to_buy.name).wrap());
        let same = costing
            .lines
            .iter()
            .filter(|other| other.line.article == to_buy.article);
        let count = same.clone().count();
        let cost: workshop::Money = same.filter_map(|line| line.paid).sum();
        let times = if count > 1 {
            format!("{count} × ")
        } else {
            String::new()
        };
        let cost = match line.price {
            Some(_) => format!(": {}", cost.shown(costing.currency)),
            None => String::new(),
        };
        let words = theme::quiet(format!("{times}{}{cost}", to_buy.to_buy(units)));
        ui.label(words).on_hover_text(OF_LINE);
        show_fault(ui, fault_of(&to_buy.article));
    });
    amount_ui(ui, board, line, &field::ARTICLE_PRICE);
    amount_ui(ui, board, line, &field::ARTICLE_PACK);
    let mut owned = to_buy.owned;
    let tick = ui.checkbox(&mut owned, "");
    let name = format!("In the shop: {}", to_buy.name);
    tick.widget_info(|| egui::WidgetInfo::selected(egui::Role::CheckBox, true, owned, &name));
    if tick
        .on_hover_text("Tick what your shop has: none is bought")
        .changed()
    {
        let entry = entry_of(board, line);
        field::ARTICLE_OWNED.set(board, entry, &Value::Tick(owned));
    }
}

/// The id under which the error about the price of an article is stored.
fn fault_of(article: &str) -> egui::Id {
    egui::Id::unique("price fault").with(article)
}

/// The price of a line or its pack, typed without a caption; an empty field takes it back.
fn amount_ui(ui: &mut Ui, board: &mut Board, line: &PricedLine, amount: &'static Field) {
    let units = board.units;
    let is_price = amount == &field::ARTICLE_PRICE;
    let known = board.price.of(&line.line.article);
    let (before, example, width, what) = if is_price {
        let price = known.and_then(|known| known.price);
        let shown = price.map(|price| amount.shown(&Value::Number(price), units));
        (shown.unwrap_or_default(), "missing", PRICE, "Price")
    } else {
        (pack_shown(line, units), "", PACK, "Pack")
    };
    let name = format!("{what}: {}", line.line.name);
    let Some(text) = text_in(ui, &name, &before, example, width).filter(|text| *text != before)
    else {
        return;
    };
    let by_volume = !is_price && line.line.sold == SoldBy::Volume;
    let read = match text.trim() {
        "" => Ok(Value::Open),
        text if by_volume => read_volume(text, amount, units),
        text => amount
            .read(text, board, 0)
            .map_err(|fault| fault.to_string()),
    };
    let taken = read.map(|value| {
        let entry = entry_of(board, line);
        amount.set(board, entry, &value);
    });
    keep_fault(ui, fault_of(&line.line.article), taken);
}

/// A volume in any unit, ml, in the range of a pack.
fn read_volume(text: &str, pack: &Field, units: Units) -> Result<Value, String> {
    let ml = Quantity::Volume
        .read(text, units)
        .map_err(|fault| fault.to_string())?;
    let value = Value::Number(ml);
    pack.check(&value, 0).map_err(|fault| fault.to_string())?;
    Ok(value)
}

/// The amount that a price is for, in a word.
fn pack_shown(line: &PricedLine, units: Units) -> String {
    let pack = line.line.pack;
    match line.line.sold {
        SoldBy::Piece => show_number(pack, 2),
        sold => sold.shown(pack, units),
    }
}

/// The index of an article among the prices; a missing one is added, with the pack that its price is for.
fn entry_of(board: &mut Board, line: &PricedLine) -> usize {
    let article = &line.line.article;
    let known = board
        .price
        .articles
        .iter()
        .position(|price| price.article == *article);
    known.unwrap_or_else(|| {
        board.price.articles.push(ArticlePrice {
            article: article.clone(),
            pack: Some(line.line.pack),
            ..ArticlePrice::default()
        });
        board.price.articles.len() - 1
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::panels::hand::{self, press, sees, type_into, write_into};
    use egui_kittest::Harness;
    use egui_kittest::kittest::Queryable as _;

    fn panel() -> Harness<'static, Board> {
        hand::panel(2400.0, |ui, board| {
            let current = Current::of(board);
            price_ui(ui, board, &current);
        })
    }

    #[test]
    fn a_price_is_typed_beside_what_is_bought_and_taken_back() {
        let mut panel = panel();
        assert!(sees(&panel, "prices are missing"));
        // The cost, the price before and with tax, and the material; overhead is 0 % of it.
        assert_eq!(panel.query_all_by_label("not known yet").count(), 4);
        assert_eq!(panel.query_all_by_label("$0.00").count(), 1);
        write_into(&mut panel, "Price: Marbles, 16 mm", "$0.25");
        let prices = panel.state().price.articles.clone();
        assert_eq!((prices.len(), prices[0].article.as_str()), (1, "marble-16"));
        assert_eq!(prices[0].price, Some(0.25));
        panel.run();
        assert!(sees(&panel, "6 × 5: $7.50") && sees(&panel, "at least $7.50"));
        write_into(&mut panel, "Price: Marbles, 16 mm", "a lot");
        assert!(sees(&panel, "The old value stays"));
        assert_eq!(panel.state().price.articles[0].price, Some(0.25));
        write_into(&mut panel, "Price: Marbles, 16 mm", " ");
        assert_eq!(panel.state().price.articles[0].price, None);
    }

    #[test]
    fn packs_are_typed_and_what_the_shop_has_is_ticked() {
        let mut panel = panel();
        write_into(&mut panel, "Pack: Paper, A4", "100");
        assert_eq!(panel.state().price.articles[0].pack, Some(100.0));
        panel.run();
        assert!(sees(&panel, "1 pack of 100"));
        press(&mut panel, "In the shop: Paper, A4");
        assert!(panel.state().price.articles[0].owned);
        panel.run();
        assert!(sees(&panel, "in the shop"));
    }

    #[test]
    fn rates_make_a_price_and_a_margin_of_all_of_it_none() {
        let mut panel = panel();
        write_into(&mut panel, "Hourly rate", "40");
        type_into(&mut panel, "Margin", "25 %");
        panel.run();
        let workpiece = Workpiece::of(panel.state()).unwrap();
        let sale = workpiece.costing().sale.unwrap();
        let net = sale.net.shown(board::Currency::Usd);
        assert!(sees(&panel, &format!("at least {net}")));
        type_into(&mut panel, "Margin", "100 %");
        panel.run();
        assert!(sees(&panel, "none at this margin"));
    }

    #[test]
    fn a_large_sum_lies_clear_of_its_caption() {
        let mut panel = panel();
        panel.state_mut().schedule.boards = 120;
        write_into(&mut panel, "Hourly rate", "999");
        panel.run();
        let sum = panel.query_all_by_label_contains("at least $").next();
        let (sum, caption) = (
            sum.unwrap().rect(),
            panel.get_by_label("Cost of 120 boards").rect(),
        );
        assert!(!sum.intersects(caption), "{sum:?} {caption:?}");
    }

    #[test]
    fn lines_are_found_by_their_words() {
        let mut panel = panel();
        assert!(sees(&panel, "Sanding discs"));
        write_into(&mut panel, "Find", "marble");
        assert!(sees(&panel, "Marbles, 16 mm") && !sees(&panel, "Sanding discs"));
    }
}
