using System.Buffers.Binary;
using System.Numerics;
using Portwitness.Captures.Input;

namespace Portwitness.Captures.Waveforms;

/// <summary>Readers of files that are nothing but samples of the CC line.</summary>
internal static class SampleInputs
{
    /// <summary>The format's name.</summary>
    public const string Format = "samples";

    // Ranges below these are noise: a quarter of the swing of BMC; of steps, what eight bits can just show.
    private const int LeastMicrovolts = 280_000;
    private const int LeastSteps8 = 8;
    private const int LeastSteps16 = 256;

    /// <summary>What is no voltage of a CC line is held to ±65 V.</summary>
    private const int MaxMicrovolts = 65_000_000;

    /// <summary>Opens a reader for stated samples.</summary>
    public static IInputReader Open(ICaptureSink sink, FaultLog faults, WaveformOptions options, LineSplitter lines)
    {
        SampleClock clock = new(options.SampleRate);
        return options.Samples switch
        {
            SampleKind.U8 when options.SampleBit is { } bit => new ChannelSamples(sink, faults, clock.Rate, 1, bit),
            SampleKind.I16 when options.SampleBit is { } bit => new ChannelSamples(sink, faults, clock.Rate, 2, bit),
            SampleKind.Bit => new BitSamples(sink, faults, clock.Rate, highFirst: false),
            SampleKind.BitHighFirst => new BitSamples(sink, faults, clock.Rate, highFirst: true),
            SampleKind.U8 => new NumberInput<byte>(Block<byte>(sink, faults, options, clock, LeastSteps8), 1, CopyBytes, faults),
            SampleKind.I16 => new NumberInput<short>(Block<short>(sink, faults, options, clock, LeastSteps16), 2, CopyShorts, faults),
            SampleKind.F32 => new NumberInput<int>(Microvolts(sink, faults, options, clock), 4, CopyFloats, faults),
            _ => new LineInput(lines, new VoltageLines(Microvolts(sink, faults, options, clock), options, faults)),
        };
    }

    /// <summary>A block of microvolts, evenly spaced or each with its time.</summary>
    public static SampleBlock<int> Microvolts(ICaptureSink sink, FaultLog faults, WaveformOptions options, SampleClock? clock) =>
        Block<int>(sink, faults, options, clock, LeastMicrovolts);

    /// <summary>A voltage within what is taken for one.</summary>
    public static int Limit(long microvolts) => (int)Math.Clamp(microvolts, -MaxMicrovolts, MaxMicrovolts);

    private static SampleBlock<T> Block<T>(
        ICaptureSink sink, FaultLog faults, WaveformOptions options, SampleClock? clock, int least)
        where T : struct, IBinaryInteger<T>, IMinMaxValue<T> =>
        new(new CcLine(sink, Format), faults, clock, options.Levels, least);

    private static void CopyBytes(ReadOnlySpan<byte> from, Span<byte> to) => from.CopyTo(to);

    private static void CopyShorts(ReadOnlySpan<byte> from, Span<short> to)
    {
        for (int i = 0; i < to.Length; i++)
        {
            to[i] = BinaryPrimitives.ReadInt16LittleEndian(from[(2 * i)..]);
        }
    }

    // Not a number counts as 0 V: no recording of a line has it for long.
    private static void CopyFloats(ReadOnlySpan<byte> from, Span<int> to)
    {
        for (int i = 0; i < to.Length; i++)
        {
            float volts = BinaryPrimitives.ReadSingleLittleEndian(from[(4 * i)..]);
            to[i] = float.IsNaN(volts) ? 0 : (int)Math.Clamp(volts * 1e6f, -MaxMicrovolts, MaxMicrovolts);
        }
    }

    private delegate void Copy<T>(ReadOnlySpan<byte> from, Span<T> to);

    private sealed class NumberInput<T>(SampleBlock<T> block, int size, Copy<T> copy, FaultLog faults) : IInputReader
        where T : struct, IBinaryInteger<T>, IMinMaxValue<T>
    {
        private readonly byte[] _held = new byte[sizeof(ulong)];
        private int _length;

        public void Write(ReadOnlySpan<byte> piece)
        {
            while (_length > 0 && !piece.IsEmpty)
            {
                _held[_length++] = piece[0];
                piece = piece[1..];
                if (_length == size)
                {
                    copy(_held.AsSpan(0, size), block.Room[..1]);
                    block.Added(1);
                    _length = 0;
                }
            }

            while (piece.Length >= size)
            {
                int samples = Math.Min(piece.Length / size, block.Room.Length);
                copy(piece[..(samples * size)], block.Room[..samples]);
                block.Added(samples);
                piece = piece[(samples * size)..];
            }

            piece.CopyTo(_held.AsSpan(_length));
            _length += piece.Length;
        }

        public void Complete()
        {
            if (_length > 0)
            {
                faults.Report(0, 0, FaultCodes.SamplesCut, FaultText.SamplesCut);
            }

            block.Complete();
        }
    }
}
