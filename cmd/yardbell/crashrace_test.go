//go:build race

package main

func init() { crashStride = 4 }
