// Package conversation makes an answer of a message: what is logged, said and asked.
//
// A Scene is all that a message is handled against: who wrote it, in answer to what, and a
// look at the file, which cannot write. A handler takes the scene, changes nothing in it, and
// returns an Answer: the lines to be logged, what else is to be written, the words and the
// buttons. What the next part of a message sees is the scene that the answer brings back.
//
// It finds what is meant from the context of the chat (context.go), asks where there are two
// readings, and logs where there is one. It never logs what it did not understand in full.
package conversation
