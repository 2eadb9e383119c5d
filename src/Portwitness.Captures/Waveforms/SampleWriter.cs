using System.Buffers.Binary;
using System.Globalization;
using System.Text;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Captures.Waveforms;

/// <summary>How an instrument shows the line: levels, slowness, noise.</summary>
public sealed record SampleShape
{
    /// <summary>Samples a second.</summary>
    public long SampleRate { get; init; } = 25_000_000;

    /// <summary>What is written; <see cref="SampleKind.Text"/> writes a table of times and volts.</summary>
    public SampleKind Kind { get; init; } = SampleKind.Bit;

    /// <summary>The low level, in millivolts.</summary>
    public int LowMillivolts { get; init; }

    /// <summary>The high level, in millivolts: vSwing is 1,050 to 1,200 (R3.2v1.1, 5.8.2.1).</summary>
    public int HighMillivolts { get; init; } = 1_125;

    /// <summary>The level of the idle line, in millivolts; that of 3 A into Rd, for example.</summary>
    public int IdleMillivolts { get; init; } = 1_680;

    /// <summary>How long an edge takes, in nanoseconds: at least 300 (R3.2v1.1, 5.8.2.1, tRise and tFall).</summary>
    public int EdgeNs { get; init; } = 400;

    /// <summary>How far a sample may be off, in millivolts either way.</summary>
    public int NoiseMillivolts { get; init; }
}

/// <summary>
/// Writes the CC line as samples: bits, numbers of 8 or 16 bits, floats in volts, or a table. A step of 8 bits is 10 mV and that of
/// -0.2 V is 0; a step of 16 bits is 1 mV.
/// </summary>
public sealed class SampleWriter : WaveformWriter
{
    private readonly SampleShape _samples;
    private readonly SampleClock _clock;
    private readonly SeededNumbers _noise;
    private long _sample;
    private long _from;
    private long _to;
    private long _rampPs;
    private int _bits;
    private int _bitCount;

    /// <summary>A writer to a stream, which stays open.</summary>
    /// <param name="stream">Where the samples go.</param>
    /// <param name="samples">What the instrument shows.</param>
    /// <param name="shape">How the frames are sent; null for 300 kbit/s without flaws.</param>
    /// <param name="onFault">Told of each fault of a conversion's input.</param>
    public SampleWriter(Stream stream, SampleShape samples, LineShape? shape = null, Action<CaptureFault>? onFault = null)
        : base(stream, shape ?? new LineShape(), onFault)
    {
        ArgumentNullException.ThrowIfNull(samples);
        (_samples, _clock) = (samples, new SampleClock(samples.SampleRate));
        _noise = new SeededNumbers(shape?.Seed ?? 0);
        _rampPs = long.MinValue / 2;
    }

    private protected override void Begin(string? port, bool high)
    {
        _from = _to = high ? _samples.IdleMillivolts : _samples.LowMillivolts;
        if (_samples.Kind == SampleKind.Text)
        {
            Encoding.UTF8.GetBytes("time_s,cc_V\n", Output);
        }
    }

    private protected override void Write(IReadOnlyList<LineEdge> edges)
    {
        for (int i = 0; i < edges.Count; i++)
        {
            long begins = edges[i].TimePs - (500L * _samples.EdgeNs);
            PutUntil(begins);
            _from = At(begins);
            _rampPs = begins;
            bool released = i == edges.Count - 1 && edges[i].High;
            _to = released ? _samples.IdleMillivolts : edges[i].High ? _samples.HighMillivolts : _samples.LowMillivolts;
        }
    }

    private protected override void End(long timePs)
    {
        PutUntil(timePs);
        while (_bitCount != 0)
        {
            Put((int)At(timePs), timePs);
        }
    }

    private void PutUntil(long timePs)
    {
        for (long time; (time = _clock.TimeOf(_sample)) < timePs; _sample++)
        {
            Put((int)(At(time) + _noise.Next(-_samples.NoiseMillivolts, _samples.NoiseMillivolts)), time);
        }
    }

    private long At(long timePs)
    {
        long since = timePs - _rampPs;
        long length = 1000L * Math.Max(_samples.EdgeNs, 1);
        return since >= length ? _to : _from + ((_to - _from) * Math.Max(since, 0) / length);
    }

    private void Put(int millivolts, long timePs)
    {
        switch (_samples.Kind)
        {
            case SampleKind.Bit or SampleKind.BitHighFirst:
                PutBit(2 * millivolts > _samples.LowMillivolts + _samples.HighMillivolts);
                break;
            case SampleKind.U8:
                Output.GetSpan(1)[0] = (byte)Math.Clamp((millivolts + 200) / 10, 0, 255);
                Output.Advance(1);
                break;
            case SampleKind.I16:
                BinaryPrimitives.WriteInt16LittleEndian(Output.GetSpan(2), (short)millivolts);
                Output.Advance(2);
                break;
            case SampleKind.F32:
                BinaryPrimitives.WriteSingleLittleEndian(Output.GetSpan(4), millivolts / 1000f);
                Output.Advance(4);
                break;
            default:
                Encoding.UTF8.GetBytes(
                    string.Create(CultureInfo.InvariantCulture, $"{timePs / 1_000_000_000_000m:0.000000000000},{millivolts / 1000m}\n"), Output);
                break;
        }

        FlushIfFull();
    }

    private void PutBit(bool high)
    {
        int place = _samples.Kind == SampleKind.Bit ? _bitCount : 7 - _bitCount;
        _bits |= high ? 1 << place : 0;
        _bitCount = (_bitCount + 1) % 8;
        if (_bitCount == 0)
        {
            Output.GetSpan(1)[0] = (byte)_bits;
            Output.Advance(1);
            _bits = 0;
        }
    }
}
