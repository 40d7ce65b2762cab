package api

var wrongHistory = []wrong{}
