using System.Text;
using Portwitness.Captures.Formats;

namespace Portwitness.Captures.Tests.Waveforms;

/// <summary>What is in use after a long input. The count is the whole process's, so nothing else may run meanwhile.</summary>
[Collection(nameof(WaveformMemoryTests))]
[CollectionDefinition(nameof(WaveformMemoryTests), DisableParallelization = true)]
public class WaveformMemoryTests
{
    [Theory]
    [InlineData("$timescale 1 ns $end\n$var wire 1 ! cc $end\n$enddefinitions $end\n", "#")]
    [InlineData("$timescale 1 ns $end\n$comment ", "word ")]
    [InlineData("$timescale 1 ns $end\n", "$var wire 1 ! cc $end $scope module abc $end ")]
    [InlineData("$timescale 1 ns $end\n$var wire 1 ! cc $end\n$enddefinitions $end\n", "0!\n1!\n")]
    [InlineData("$timescale 1 ns $end\n$var wire 1 ! cc $end\n$enddefinitions $end\n", "9!\n")]
    public void LongDump_IsNotHeld(string start, string filling)
    {
        byte[] block = Encoding.UTF8.GetBytes(string.Concat(Enumerable.Repeat(filling, (1 << 16) / filling.Length)));
        CountingSink sink = new();
        CaptureReader reader = new(sink);
        reader.Write(Encoding.UTF8.GetBytes(start));
        for (int i = 0; i < 100; i++)
        {
            reader.Write(block);
        }

        long before = GC.GetTotalMemory(forceFullCollection: true);
        for (int i = 0; i < 200; i++)
        {
            reader.Write(block);
        }

        (GC.GetTotalMemory(forceFullCollection: true) - before).Should().BeLessThan(1 << 20);
        reader.Complete();
    }
}
