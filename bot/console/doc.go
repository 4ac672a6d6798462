// Package console is the transport without a chat: scripts and a terminal.
package console
