package chart
import ("testing";"strings")
func TestTmp(t *testing.T){ for n,c:=range courses(){ for _,e:=range []string{"png","svg","pdf"} { if err:=Save("/tmp/chart-"+strings.ReplaceAll(strings.ReplaceAll(n," ","-"),",","")+"."+e,c);err!=nil{t.Error(err)}}}}
