using Portwitness.Captures.Input;
using Portwitness.Text;

namespace Portwitness.Captures.Waveforms;

/// <summary>Reads samples of a stated rate from text, one voltage a line; lines before the first number are a heading.</summary>
internal sealed class VoltageLines(SampleBlock<int> block, WaveformOptions options, FaultLog faults) : ILineReader
{
    private readonly int _decimals = options.Units?.Voltage ?? 6;
    private bool _begun;
    private int _last;

    /// <inheritdoc/>
    public void Read(long line, ReadOnlySpan<byte> text)
    {
        text = text.Trim(" \t"u8);
        if (DecimalText.TryRead(text, _decimals, out long microvolts))
        {
            (_last, _begun) = (SampleInputs.Limit(microvolts), true);
        }
        else if (_begun)
        {
            faults.Report(line, 1, FaultCodes.WaveformRowInvalid, FaultText.VoltageInvalid);
        }
        else
        {
            return;
        }

        block.Room[0] = _last;
        block.Added(1);
    }

    /// <inheritdoc/>
    public void Skipped(long line)
    {
    }

    /// <inheritdoc/>
    public void Complete() => block.Complete();
}
