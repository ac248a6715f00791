//! A long list to choose from: typing keeps only the entries that contain the text, and Enter chooses the first of them.

use egui::{ComboBox, Id, Key, PopupCloseBehavior, Response, Role, TextEdit, Ui, WidgetInfo};

use super::{field_width, in_field, row};

/// A choice of one among many, by name, in a list that can be searched.
pub fn search_choice<T: Copy + PartialEq>(
    ui: &mut Ui,
    caption: &str,
    chosen: &mut T,
    all: &[T],
    label: impl Fn(T) -> String,
) -> Response {
    let before = *chosen;
    let mut response = row(ui, caption, |ui, caption_id| {
        let kept = ui.scope_id().with(caption).with("search");
        let combo = ComboBox::from_id_salt(caption)
            .selected_text(label(*chosen))
            .width(field_width(ui))
            .close_behavior(PopupCloseBehavior::CloseOnClickOutside)
            .wrap();
        let shown = in_field(ui, |ui| {
            combo.show_ui(ui, |ui| {
                let text = search_ui(ui, kept, caption);
                let found = matching(all, &text, &label);
                if found.is_empty() {
                    ui.weak("nothing is called so");
                }
                let entered = ui.input(|input| input.key_pressed(Key::Enter));
                for &one in &found {
                    let picked = ui.selectable_label(one == *chosen, label(one)).clicked();
                    let is_first = found.first() == Some(&one);
                    if picked || (entered && is_first && !text.is_empty()) {
                        *chosen = one;
                        ui.close();
                    }
                }
            })
        });
        if shown.inner.is_none() {
            ui.data_mut(|data| data.remove::<String>(kept));
        }
        shown.response.labelled_by(caption_id)
    });
    if *chosen != before {
        response.mark_changed();
    }
    response
}

/// The search field, which is focused when it appears; returns its text.
fn search_ui(ui: &mut Ui, kept: Id, caption: &str) -> String {
    let typed = ui.data(|data| data.get_temp::<String>(kept));
    let is_new = typed.is_none();
    let mut text = typed.unwrap_or_default();
    let edit = TextEdit::singleline(&mut text)
        .hint_text("type to search")
        .desired_width(field_width(ui));
    let response = ui.add(edit);
    let name = format!("Search {caption}");
    response.widget_info(|| WidgetInfo::labeled(Role::TextInput, true, &name));
    if is_new {
        response.request_focus();
    }
    ui.data_mut(|data| data.insert_temp(kept, text.clone()));
    text
}

/// The entries that have every word of a text in their names, in whatever case.
fn matching<T: Copy>(all: &[T], text: &str, label: impl Fn(T) -> String) -> Vec<T> {
    let words: Vec<String> = text.split_whitespace().map(str::to_lowercase).collect();
    let has_all = |one: &T| {
        let name = label(*one).to_lowercase();
        words.iter().all(|word| name.contains(word))
    };
    all.iter().copied().filter(has_all).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::theme;
    use egui_kittest::Harness;
    use egui_kittest::kittest::Queryable as _;

    const WOODS: [&str; 4] = ["ash", "black walnut", "hard maple", "soft maple"];

    #[test]
    fn what_is_typed_leaves_the_entries_that_have_it_and_enter_takes_the_first() {
        let panel = |ui: &mut Ui, chosen: &mut &'static str| {
            search_choice(ui, "Wood", chosen, &WOODS, ToOwned::to_owned);
        };
        let builder = Harness::builder().with_context_setup(theme::install);
        let mut harness = builder.build_ui_state(panel, WOODS[0]);
        harness.get_by_label("Wood").click();
        harness.run_steps(4);
        harness.get_by_label("hard maple");
        harness.event(egui::Event::Text("maple s".into()));
        harness.run_steps(2);
        assert!(harness.query_by_label("hard maple").is_none());
        harness.key_press(Key::Enter);
        harness.run_steps(4);
        assert_eq!(*harness.state(), "soft maple");
        assert!(harness.query_by_label("Search Wood").is_none());
    }

    #[test]
    fn every_word_of_the_text_must_be_in_the_name() {
        let label = |name: &str| name.to_owned();
        assert_eq!(
            matching(&WOODS, "MAPLE", label),
            ["hard maple", "soft maple"]
        );
        assert_eq!(matching(&WOODS, "", label).len(), 4);
        assert!(matching(&WOODS, "pine", label).is_empty());
    }
}
