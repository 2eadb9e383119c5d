using System.Text;
using CsCheck;
using Portwitness.Captures.Formats;
using Portwitness.Captures.Waveforms;

namespace Portwitness.Captures.Tests.Waveforms;

/// <summary>Recordings are as hostile as any input: pieces, bytes and lengths change nothing, throw nothing and take no memory.</summary>
public class WaveformRobustnessTests
{
    public static TheoryData<string> Inputs => ["vcd", "bit", "u8", "i16", "f32", "text", "table"];

    [Theory]
    [MemberData(nameof(Inputs))]
    public void InputCutAnywhere_GivesTheSame(string name)
    {
        (byte[] input, CaptureReadOptions options) = Input(name);
        List<string> expected = Recording.Of(input, options: options).Calls;
        // Where a word or a number may be cut, every place comes up; the whole would take minutes.
        for (int at = 0; at <= input.Length; at += 1 + (input.Length / 1500))
        {
            Recording.OfSplit(input, at, options).Calls.Should().Equal(expected, "cut at {0}", at);
        }

        foreach (int piece in new[] { 1, 2, 3, 7, 64 })
        {
            Recording.Of(input, piece, options).Calls.Should().Equal(expected, "pieces of {0}", piece);
        }
    }

    [Theory]
    [MemberData(nameof(Inputs))]
    public void InputWithBytesChanged_NeverThrows(string name)
    {
        (byte[] good, CaptureReadOptions options) = Input(name);
        Gen.Select(Gen.Int[0, good.Length - 1], Gen.Byte).Array[1, 30].Sample(
            changes =>
            {
                byte[] changed = [.. good];
                foreach ((int at, byte value) in changes)
                {
                    changed[at] = value;
                }

                Recording read = Recording.Of(changed, options: options);
                read.Headers.Should().HaveCount(read.Format is null ? 0 : 1);
                read.Messages.Select(message => message.TimeUs).Should().BeInAscendingOrder();
            },
            seed: "0000000000001",
            iter: 60);
    }

    [Fact]
    public void Messages_AllocateNothing()
    {
        MemoryStream stream = new();
        using (VcdWriter writer = new(stream))
        {
            writer.OnHeader(new CaptureHeader { Format = "capture" });
            for (int i = 0; i < 200; i++)
            {
                writer.OnMessage(new MessageRecord
                {
                    TimeUs = 1000 * i, Line = 0, Sop = PowerDelivery.Framing.SopKind.Sop, Bytes = [0x81, 0x00],
                });
            }
        }

        byte[] dump = stream.ToArray();
        CountingSink sink = new();
        CaptureReader reader = new(sink);
        reader.Write(dump.AsSpan(0, dump.Length / 2));
        long before = GC.GetAllocatedBytesForCurrentThread();
        reader.Write(dump.AsSpan(dump.Length / 2));
        (GC.GetAllocatedBytesForCurrentThread() - before).Should().Be(0);
        reader.Complete();
        (sink.Messages, sink.Faults).Should().Be((200, 0));
    }

    private static (byte[] Bytes, CaptureReadOptions Options) Input(string name)
    {
        const long rate = 2_500_000;
        SampleShape shape = new() { SampleRate = rate, IdleMillivolts = 900 };
        return name switch
        {
            "vcd" => (WaveformFile.Vcd(), new CaptureReadOptions()),
            "bit" => (WaveformFile.Samples(shape), WaveformFile.Options(SampleKind.Bit, rate)),
            "u8" => (WaveformFile.Samples(shape with { Kind = SampleKind.U8 }), WaveformFile.Options(SampleKind.U8, rate)),
            "i16" => (WaveformFile.Samples(shape with { Kind = SampleKind.I16 }), WaveformFile.Options(SampleKind.I16, rate)),
            "f32" => (WaveformFile.Samples(shape with { Kind = SampleKind.F32 }), WaveformFile.Options(SampleKind.F32, rate)),
            "table" => (WaveformFile.Samples(shape with { Kind = SampleKind.Text }), new CaptureReadOptions()),
            _ => (Encoding.UTF8.GetBytes(string.Join('\n', WaveformFile.Samples(shape with { Kind = SampleKind.Text }).Text().TrimEnd()
                .Split('\n').Skip(1).Select(row => row.Split(',')[1]))), WaveformFile.Options(SampleKind.Text, rate)),
        };
    }
}
