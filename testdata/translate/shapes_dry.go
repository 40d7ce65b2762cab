package main

var dryShapes = []shape{}
