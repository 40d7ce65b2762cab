package main

var cutShapes = []shape{}
