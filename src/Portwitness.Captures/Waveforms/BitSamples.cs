using System.Buffers.Binary;
using System.Numerics;
using Portwitness.Captures.Input;

namespace Portwitness.Captures.Waveforms;

/// <summary>Reads samples of one bit, eight in a byte. An idle line is passed over as fast as memory is read.</summary>
internal sealed class BitSamples : IInputReader
{
    private const int WordBytes = sizeof(ulong);

    private readonly CcLine _cc;
    private readonly FaultLog _faults;
    private readonly SampleClock _clock;
    private readonly bool _highFirst;
    private long _sample;
    private bool _begun;
    private bool _high;

    /// <summary>A reader of samples at a rate, the first of a byte lowest or highest in it.</summary>
    public BitSamples(ICaptureSink sink, FaultLog faults, long rate, bool highFirst)
    {
        _cc = new CcLine(sink, SampleInputs.Format);
        (_faults, _clock, _highFirst) = (faults, new SampleClock(rate), highFirst);
        _cc.ResolutionPs = _clock.PeriodPs;
    }

    /// <inheritdoc/>
    public void Write(ReadOnlySpan<byte> piece)
    {
        if (!_begun && !piece.IsEmpty)
        {
            (_begun, _high) = (true, (InOrder(piece[0]) & 1) != 0);
        }

        while (!piece.IsEmpty)
        {
            int idle = piece.IndexOfAnyExcept(_high ? byte.MaxValue : byte.MinValue);
            idle = idle < 0 ? piece.Length : idle;
            piece = piece[idle..];
            _sample += 8L * idle;
            if (piece.Length >= WordBytes)
            {
                AddSamples(InOrder(BinaryPrimitives.ReadUInt64LittleEndian(piece)), 8 * WordBytes);
                piece = piece[WordBytes..];
            }
            else if (!piece.IsEmpty)
            {
                AddSamples(InOrder(piece[0]), 8);
                piece = piece[1..];
            }
        }
    }

    /// <inheritdoc/>
    public void Complete() => _cc.Complete(_clock.TimeOf(_sample), _faults);

    // The first sample becomes bit 0: the bits of each byte are turned round.
    private ulong InOrder(ulong word)
    {
        if (!_highFirst)
        {
            return word;
        }

        word = ((word >> 1) & 0x5555555555555555) | ((word & 0x5555555555555555) << 1);
        word = ((word >> 2) & 0x3333333333333333) | ((word & 0x3333333333333333) << 2);
        return ((word >> 4) & 0x0F0F0F0F0F0F0F0F) | ((word & 0x0F0F0F0F0F0F0F0F) << 4);
    }

    private void AddSamples(ulong word, int samples)
    {
        ulong changes = (word ^ ((word << 1) | (_high ? 1UL : 0))) & (ulong.MaxValue >> (64 - samples));
        for (; changes != 0; changes &= changes - 1)
        {
            _cc.Edge(_clock.TimeOf(_sample + BitOperations.TrailingZeroCount(changes)));
        }

        _high = ((word >> (samples - 1)) & 1) != 0;
        _sample += samples;
    }
}
