package main

var yearShapes = []shape{}
