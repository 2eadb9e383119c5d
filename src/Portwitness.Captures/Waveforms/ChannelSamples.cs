using Portwitness.Captures.Input;

namespace Portwitness.Captures.Waveforms;

/// <summary>Reads samples of several channels of which one bit is the CC line, as logic analysers save them.</summary>
internal sealed class ChannelSamples : IInputReader
{
    private const int BitsOfByte = 8;

    private readonly CcLine _cc;
    private readonly FaultLog _faults;
    private readonly SampleClock _clock;
    private readonly int _size;
    private readonly int _byte;
    private readonly int _mask;
    private int _at;
    private long _sample;
    private int? _level;

    /// <summary>A reader of a bit of samples of a size in bytes, the lowest byte first.</summary>
    public ChannelSamples(ICaptureSink sink, FaultLog faults, long rate, int size, int bit)
    {
        _cc = new CcLine(sink, SampleInputs.Format);
        (_faults, _clock, _size) = (faults, new SampleClock(rate), size);
        (_byte, _mask) = (bit / BitsOfByte, 1 << (bit % BitsOfByte));
        _cc.ResolutionPs = _clock.PeriodPs;
    }

    /// <inheritdoc/>
    public void Write(ReadOnlySpan<byte> piece)
    {
        foreach (byte value in piece)
        {
            if (_at == _byte && (value & _mask) is var level && level != _level)
            {
                if (_level is not null)
                {
                    _cc.Edge(_clock.TimeOf(_sample));
                }

                _level = level;
            }

            if (++_at == _size)
            {
                _at = 0;
                _sample++;
            }
        }
    }

    /// <inheritdoc/>
    public void Complete()
    {
        if (_at > 0)
        {
            _faults.Report(0, 0, FaultCodes.SamplesCut, FaultText.SamplesCut);
        }

        _cc.Complete(_clock.TimeOf(_sample), _faults);
    }
}
