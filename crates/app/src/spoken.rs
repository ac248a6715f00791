//! The window for screen readers, where the toolkit leaves words out.
//!
//! On Linux the bridge to screen readers hands on names and descriptions, but neither the value of a list to choose from nor whether a
//! section is unfolded, and the text of a field is not read when the field gets the focus (seen with Orca 43 and AccessKit 0.25). Other
//! systems read values by themselves and would say them twice.

use std::collections::HashMap;

use egui::accesskit::{Node, NodeId, Role, Toggled, TreeUpdate};
use egui::{Context, FullOutput, Plugin};

/// Completes what the window hands to screen readers, in every frame in which one listens.
pub struct Spoken;

impl Plugin for Spoken {
    fn debug_name(&self) -> &'static str {
        "spoken"
    }

    fn output_hook(&mut self, _: &Context, output: &mut FullOutput) {
        if let Some(update) = &mut output.platform_output.accesskit_update {
            complete(update);
        }
    }
}

fn complete(update: &mut TreeUpdate) {
    let titles = titles(&update.nodes);
    let root = update.tree.as_ref().map(|tree| tree.root);
    for (id, node) in &mut update.nodes {
        if Some(*id) == root {
            node.set_label("Ringwright");
        }
        if let Some(title) = titles.get(id) {
            node.set_label(title.as_str());
        }
        match node.role() {
            Role::ComboBox | Role::TextInput | Role::MultilineTextInput
                if cfg!(target_os = "linux") =>
            {
                describe_by_value(node);
            }
            Role::DisclosureTriangle => {
                if let Some(is_open) = node.is_expanded() {
                    node.set_toggled(Toggled::from(is_open));
                }
            }
            _ => {}
        }
    }
}

/// Puts the value before the description.
fn describe_by_value(node: &mut Node) {
    let Some(value) = node.value().filter(|value| !value.is_empty()) else {
        return;
    };
    let described = match node.description() {
        Some(more) if !more.is_empty() => format!("{}. {more}", value.trim_end_matches('.')),
        _ => value.to_owned(),
    };
    node.set_description(described);
}

/// The first words of each dialog that has no name: its heading.
fn titles(nodes: &[(NodeId, Node)]) -> HashMap<NodeId, String> {
    let is_nameless = |node: &Node| node.role() == Role::Dialog && node.label().is_none();
    if !nodes.iter().any(|(_, node)| is_nameless(node)) {
        return HashMap::new();
    }
    let by_id: HashMap<NodeId, &Node> = nodes.iter().map(|(id, node)| (*id, node)).collect();
    let dialogs = nodes.iter().filter(|(_, node)| is_nameless(node));
    dialogs
        .filter_map(|(id, node)| Some((*id, first_words(node, &by_id)?)))
        .collect()
}

/// The first words in a node, in reading order.
fn first_words(node: &Node, by_id: &HashMap<NodeId, &Node>) -> Option<String> {
    if node.role() == Role::Label
        && let Some(words) = node.value()
    {
        return Some(words.to_owned());
    }
    let mut children = node.children().iter().filter_map(|child| by_id.get(child));
    children.find_map(|child| first_words(child, by_id))
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::accesskit::{TreeId, TreeInfo};

    /// A window with one node, and another in it.
    fn completed(mut node: Node, inner: Option<Node>) -> (Node, Node) {
        let ids = [NodeId(1), NodeId(2), NodeId(3)];
        let mut root = Node::new(Role::Window);
        root.set_children([ids[1]]);
        let mut nodes = Vec::new();
        if let Some(inner) = inner {
            node.set_children([ids[2]]);
            nodes.push((ids[2], inner));
        }
        nodes.extend([(ids[1], node), (ids[0], root)]);
        let mut update = TreeUpdate {
            nodes,
            tree: Some(TreeInfo::new(ids[0])),
            tree_id: TreeId::ROOT,
            focus: ids[0],
        };
        complete(&mut update);
        let of = |id| update.nodes.iter().find(|(other, _)| *other == id);
        (of(ids[0]).unwrap().1.clone(), of(ids[1]).unwrap().1.clone())
    }

    fn with_value(role: Role, value: &str) -> Node {
        let mut node = Node::new(role);
        node.set_value(value);
        node
    }

    #[test]
    #[cfg(target_os = "linux")]
    fn a_list_says_its_choice_and_a_field_its_text() {
        let mut list = with_value(Role::ComboBox, "lobes");
        list.set_description("The line of the track.");
        let (window, list) = completed(list, None);
        assert_eq!(window.label(), Some("Ringwright"));
        assert_eq!(list.description(), Some("lobes. The line of the track."));
        let (_, field) = completed(with_value(Role::TextInput, "Six in oak"), None);
        assert_eq!(field.description(), Some("Six in oak"));
        let (_, empty) = completed(with_value(Role::TextInput, ""), None);
        assert_eq!(empty.description(), None);
    }

    #[test]
    fn a_section_says_whether_it_is_unfolded() {
        for is_open in [true, false] {
            let mut header = Node::new(Role::DisclosureTriangle);
            header.set_expanded(is_open);
            let (_, header) = completed(header, None);
            assert_eq!(header.toggled(), Some(Toggled::from(is_open)));
        }
    }

    #[test]
    fn a_dialog_is_called_by_its_heading() {
        let dialog = Node::new(Role::Dialog);
        let (_, dialog) = completed(dialog, Some(with_value(Role::Label, "Open a board")));
        assert_eq!(dialog.label(), Some("Open a board"));
        assert_eq!(completed(Node::new(Role::Dialog), None).1.label(), None);
    }
}
