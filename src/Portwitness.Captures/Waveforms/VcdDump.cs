using Portwitness.Captures.Input;

namespace Portwitness.Captures.Waveforms;

/// <summary>Takes the words of a value change dump: first declarations, then times and values (IEEE 1364, 18.2.2 to 18.2.4).</summary>
internal sealed class VcdDump(ICaptureSink sink, FaultLog faults, WaveformOptions options)
{
    /// <summary>Commands that a file may begin with.</summary>
    public static readonly byte[][] HeaderCommands =
    [
        [.. "$date"u8], [.. "$version"u8], [.. "$comment"u8], [.. "$timescale"u8], [.. "$scope"u8], [.. "$var"u8],
    ];

    // $var has type, width, identifier, name, and at most a few words for the bits.
    private const int MaxWords = 8;

    private readonly VcdSignals _signals = new(options.Signal);
    private readonly List<byte[]> _words = [];
    private readonly List<VcdValues> _values = [];
    private SignalChoice? _choice;
    private (long Line, long Column) _begun;
    private Command _command;
    private VcdTimescale? _timescale;

    private enum Command
    {
        None,
        Var,
        Scope,
        UpScope,
        Timescale,
        EndDefinitions,
        PassedOver,
    }

    /// <summary>Whether nothing more is read, because it is not known what would be.</summary>
    public bool IsStopped { get; private set; }

    /// <summary>Takes a word.</summary>
    public void ReadWord(ReadOnlySpan<byte> word, long line, long column)
    {
        if (_values.Count > 0)
        {
            foreach (VcdValues signal in _values)
            {
                signal.ReadWord(word, line, column);
            }
        }
        else if (_command != Command.None)
        {
            TakeInCommand(word, line, column);
        }
        else if (word[0] == '$')
        {
            _command = CommandOf(word);
        }
        else
        {
            faults.Report(line, column, FaultCodes.VcdInvalid, FaultText.VcdTokenInvalid(word));
        }
    }

    /// <summary>Learns that there is no more.</summary>
    public void Complete()
    {
        if (_values.Count > 0)
        {
            _values.ForEach(static signal => signal.Complete());
            if (_choice is { IsSettled: false })
            {
                faults.Report(_begun.Line, _begun.Column, FaultCodes.SignalUnsettled, FaultText.SignalAmbiguous(_signals.Known));
            }
        }
        else if (!IsStopped)
        {
            sink.OnHeader(new CaptureHeader { Format = VcdValues.Format });
            faults.Report(0, 0, FaultCodes.VcdInvalid, FaultText.VcdEnded);
        }
    }

    private static Command CommandOf(ReadOnlySpan<byte> word) => word switch
    {
        _ when word.SequenceEqual("$var"u8) => Command.Var,
        _ when word.SequenceEqual("$scope"u8) => Command.Scope,
        _ when word.SequenceEqual("$upscope"u8) => Command.UpScope,
        _ when word.SequenceEqual("$timescale"u8) => Command.Timescale,
        _ when word.SequenceEqual("$enddefinitions"u8) => Command.EndDefinitions,
        _ when word.SequenceEqual("$end"u8) => Command.None,
        _ => Command.PassedOver,
    };

    private void TakeInCommand(ReadOnlySpan<byte> word, long line, long column)
    {
        if (!word.SequenceEqual("$end"u8))
        {
            if (_command != Command.PassedOver && _words.Count < MaxWords)
            {
                _words.Add(word.ToArray());
            }

            return;
        }

        Command command = _command;
        _command = Command.None;
        switch (command)
        {
            case Command.Var when _words.Count >= 4:
                _signals.Declare(_words);
                break;
            case Command.Var:
                faults.Report(line, column, FaultCodes.VcdInvalid, FaultText.VcdTokenInvalid(word));
                break;
            case Command.Scope:
                _signals.Enter(_words.Count > 1 ? VcdSignals.Unescaped(_words[1]) : "");
                break;
            case Command.UpScope:
                _signals.Leave();
                break;
            case Command.Timescale:
                _timescale = VcdTimescale.TryParse(_words);
                break;
            case Command.EndDefinitions:
                Begin(line, column);
                break;
        }

        _words.Clear();
    }

    private void Begin(long line, long column)
    {
        if (options.Signal is null && _signals.Fitting > 1 && _timescale is { } scale)
        {
            // What cannot be read is told once, by the first.
            _begun = (line, column);
            _choice = new SignalChoice(sink, faults, _signals.AreCcLines);
            foreach ((string name, byte[] code) in _signals.Choices)
            {
                VcdValues signal = new(new FaultLog(_values.Count == 0 ? new SignalFaults(faults) : new SignalFaults(null)), options);
                signal.Begin(_choice.Add(name), code, scale);
                _values.Add(signal);
            }

            return;
        }

        string? detail = _signals.Fitting switch
        {
            1 => null,
            0 when options.Signal is { } signal => FaultText.SignalMissing(signal, _signals.Known),
            0 => FaultText.SignalMissing("cc", _signals.Known),
            _ => FaultText.SignalAmbiguous(_signals.Known),
        };
        if (detail is null && _timescale is { } timescale)
        {
            VcdValues only = new(faults, options);
            only.Begin(sink, _signals.Code, timescale);
            _values.Add(only);
            return;
        }

        IsStopped = true;
        sink.OnHeader(new CaptureHeader { Format = VcdValues.Format });
        faults.Report(
            line, column, detail is null ? FaultCodes.VcdInvalid : FaultCodes.SignalUnsettled, detail ?? FaultText.VcdTimescaleMissing);
    }
}
