namespace Portwitness.Captures.Input;

/// <summary>Hands faults on, up to a bound; counts those beyond it, so that a hostile input cannot flood the sink.</summary>
internal sealed class FaultLog(ICaptureSink sink)
{
    /// <summary>How many faults of one input are handed on one by one.</summary>
    public const int Listed = 1000;

    /// <summary>Said before each fault: where the text is that lines and columns are of, when it is not the input itself.</summary>
    public string Where { get; set; } = "";

    private long _count;
    private long _firstOmittedLine;

    public void Report(long line, long column, string code, string detail)
    {
        _count++;
        if (_count <= Listed)
        {
            sink.OnFault(new CaptureFault(line, column, code, Where + detail));
        }
        else if (_count == Listed + 1)
        {
            _firstOmittedLine = line;
        }
    }

    public void Complete()
    {
        if (_count > Listed)
        {
            sink.OnFault(new CaptureFault(
                _firstOmittedLine, 0, FaultCodes.FaultsOmitted, FaultText.Omitted(_count - Listed, _firstOmittedLine)));
        }
    }
}
