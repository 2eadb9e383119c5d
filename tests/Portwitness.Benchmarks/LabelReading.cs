using BenchmarkDotNet.Attributes;
using Portwitness.Labels;
using Portwitness.Product;

namespace Portwitness.Benchmarks;

/// <summary>Reading a usual label of 150 characters, alone and with what is wrong with it.</summary>
[MemoryDiagnoser]
public class LabelReading
{
    private const string Text = """
        INPUT 100-240V~ 50/60Hz 1.5A
        USB-C1: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓3.25A (65W Max)  PPS 3.3-11V⎓5A
        USB-C2: 5V⎓3A 9V⎓2.22A (20W Max)
        C1+C2: 45W+20W
        """;

    private const string Table = """
        Output   USB-C1   USB-C2   USB-A
        5V       3A       3A       2.4A
        9V       3A       2.22A    -
        20V      3.25A    -        -
        Max      65W      20W      12W
        """;

    [Benchmark(Baseline = true)]
    public Label Read() => LabelReader.Read(Text);

    [Benchmark]
    public Label ReadTable() => LabelReader.Read(Table);

    [Benchmark]
    public int ReadAndCheck() => PrintedCheck.Of(LabelReader.Read(Text), out _).Length;
}
