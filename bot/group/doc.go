// Package group is what a real group needs around the conversation: joining with a code,
// following the group and its members, who leads, what the chat lets the bot do, and what the
// leads are told in private.
package group
