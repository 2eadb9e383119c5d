using System.Collections.Immutable;
using Portwitness.Analysis;
using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Conversation;
using Portwitness.Analysis.Evidence;
using Portwitness.Captures;
using Portwitness.Captures.Formats;
using Portwitness.Captures.Offers;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Catalogue;
using Portwitness.Product.Decisions;
using Portwitness.Product.Energy;
using Portwitness.Product.Printed;

namespace Portwitness.Product;

/// <summary>
/// Checks one product. The caller reads <see cref="LabelFile"/> if there is one, then <see cref="Files"/>, opens each in turn, feeds its
/// bytes, and closes it; nothing here touches a disk.
/// </summary>
public sealed class ProductCheck : IDisposable
{
    private readonly string _file;
    private readonly int[][] _places;
    private readonly CaptureAnalysis?[] _read;
    private readonly Editions? _edition;
    private readonly RuleSet _rules;
    private readonly List<FileFault> _faults = [];
    private readonly List<MeasuredLog> _logs = [];
    private readonly List<string> _missing = [];
    private ProductFile _product;
    private readonly (string Name, Label? Label)[] _furtherLabels;
    private Label? _label;
    private PortAliases _aliases = new([], null);
    private int _nextLabel;
    private PowerSharing _sharing;
    private LabelIntake? _openLabel;
    private CaptureIntake? _open;
    private LogIntake? _openLog;
    private int _nextFile;
    private int _nextLog;

    private ProductCheck(string file, ProductFile product, Editions? edition, RuleSet? rules)
    {
        (_file, _product, _edition, _rules) = (file, product, edition, rules ?? RuleCatalogue.Set);
        _faults.AddRange(product.Faults.Select(fault => new FileFault(file, fault)));
        Captures = product.Captures;
        _read = new CaptureAnalysis?[Captures.Count];

        // A file of several ports is read once for all of them; one whose measurements are joined in, once for each.
        _places = [.. Enumerable.Range(0, Captures.Count)
            .GroupBy(place => (Captures[place].File, Alone: Captures[place] is { MeasurementsFile: null, DisplayPhotoChecked: null } ? -1 : place))
            .Select(static same => same.ToArray())];
        Files = [.. _places.Select(places => Captures[places[0]].File)];
        LabelFiles = [.. product.Labels.Select(static label => label.File).Prepend(product.LabelFile).OfType<string>()];
        _furtherLabels = [.. product.Labels.Select(label => (label.Name, label.Text is null ? null : ReadLabel(label.Text, label.Corrections, label.IsChecked)))];
        UseLabel();
    }

    /// <summary>How readings near their limits are decided.</summary>
    public DecisionRule Decision { get; init; }

    /// <summary>Files with the texts of labels, which are needed before any other; paths as of <see cref="Files"/>.</summary>
    public IReadOnlyList<string> LabelFiles { get; }

    /// <summary>The next of <see cref="LabelFiles"/>; null when none is needed any more.</summary>
    public string? LabelFile => _nextLabel < LabelFiles.Count ? LabelFiles[_nextLabel] : null;

    /// <summary>The captures whose files <see cref="Files"/> names, and the measurements that go with them.</summary>
    public IReadOnlyList<ProductCapture> Captures { get; }

    /// <summary>
    /// Files of captures that are needed, in order, relative to the product file and never outside its folder. A file of several ports
    /// stands here once.
    /// </summary>
    public IReadOnlyList<string> Files { get; }

    /// <summary>The measurements that are joined into the captures of a file of <see cref="Files"/>; null for none.</summary>
    /// <param name="file">Its place there, counted from 0.</param>
    public string? MeasurementsOf(int file) => Captures[_places[file][0]].MeasurementsFile;

    /// <summary>Logs of power that are needed after the captures, in order; paths as of <see cref="Files"/>.</summary>
    public IReadOnlyList<ProductLog> Logs => _product.Logs;

    /// <summary>From the text of a product file; what is wrong with it is reported by <see cref="Complete"/>.</summary>
    public static ProductCheck ForProduct(
        string file, string text, Editions? edition, RuleSet? rules = null, DecisionRule decision = DecisionRule.Simple) =>
        new(file, ProductFileReader.Read(text), edition, rules) { Decision = decision };

    /// <summary>From one capture, whose file name becomes the only one of <see cref="Files"/>, and a label.</summary>
    /// <remarks>The port is taken to be alone in use unless the capture's header says otherwise.</remarks>
    public static ProductCheck ForCapture(
        string file, string? label, string? port, Editions? edition, RuleSet? rules = null,
        CaptureReadOptions? reading = null, string? measurementsFile = null, DecisionRule decision = DecisionRule.Simple) => new(
        file,
        new ProductFile
        {
            Product = file,
            Label = label,
            NamesCaptures = true,
            Captures = [new ProductCapture(file, port, []) { Reading = reading ?? new(), MeasurementsFile = measurementsFile }],
        },
        edition,
        rules) { Decision = decision };

    /// <summary>Begins <see cref="LabelFile"/>; feed the intake, then call <see cref="CloseLabel"/>.</summary>
    /// <exception cref="InvalidOperationException">None is named.</exception>
    public LabelIntake OpenLabel() => LabelFile is not null
        ? _openLabel = new LabelIntake()
        : throw new InvalidOperationException("No label is needed.");

    /// <summary>Says that the label has ended.</summary>
    /// <exception cref="InvalidOperationException">It is not open.</exception>
    public void CloseLabel()
    {
        string? text = (_openLabel ?? throw new InvalidOperationException("No label is open.")).Complete(out string? problem);
        _openLabel = null;
        if (problem is not null || string.IsNullOrWhiteSpace(text))
        {
            MissingLabel(problem ?? "it is empty");
            return;
        }

        int further = _nextLabel - (_product.LabelFile is null ? 0 : 1);
        if (further < 0)
        {
            _product = _product with { Label = text };
            UseLabel();
        }
        else
        {
            NamedLabel named = _product.Labels.Where(static label => label.File is not null).ElementAt(further);
            _furtherLabels[_product.Labels.IndexOf(named)].Label = ReadLabel(text, named.Corrections, named.IsChecked);
        }

        _nextLabel++;
    }

    /// <summary>Says that the label cannot be had, and why; the rest is judged without it.</summary>
    public void MissingLabel(string reason)
    {
        _faults.Add(new FileFault(_file, new CaptureFault(
            0, 0, ProductFaultCodes.FileMissing, $"the label \"{LabelFile}\" could not be read: {reason}")));
        _nextLabel++;
    }

    /// <summary>Begins a file of <see cref="Files"/>; feed the intake, then call <see cref="Close"/>.</summary>
    /// <exception cref="InvalidOperationException">The file is not the next one, or another one is still open.</exception>
    public CaptureIntake Open(string file)
    {
        int[] places = Next(file);
        ProductCapture first = _product.Captures[places[0]];
        return _open = first.DisplayPhotoChecked is { } isChecked
            ? new CaptureIntake(Analyzer(first), isChecked)
            : new CaptureIntake([.. places.Select(place => Analyzer(_product.Captures[place]))]);
    }

    /// <summary>Says that the file that was opened last has ended.</summary>
    /// <exception cref="InvalidOperationException">None is open.</exception>
    public void Close()
    {
        CaptureIntake intake = _open ?? throw new InvalidOperationException("No capture is open.");
        _open = null;
        int[] places = _places[_nextFile - 1];
        foreach ((int place, CaptureAnalysis analysis) in places.Zip(intake.Complete()))
        {
            _read[place] = _product.Captures[place].UnderContract ? analysis with { AnyContract = true } : analysis;

            // What one port leaves of a file is another's.
            _faults.AddRange(analysis.Faults
                .Where(fault => places.Length == 1 || fault.Code is not (FaultCodes.OtherPorts or FaultCodes.PcapngOtherPorts))
                .Select(fault => new FileFault(analysis.File, fault)));
        }
    }

    /// <summary>Says that a file of <see cref="Files"/> cannot be had, and why.</summary>
    /// <exception cref="InvalidOperationException">The file is not the next one, or another one is still open.</exception>
    public void Missing(string file, string reason)
    {
        Next(file);
        _faults.Add(new FileFault(_file, new CaptureFault(
            0, 0, ProductFaultCodes.FileMissing, $"\"{file}\" could not be read: {reason}")));
        _missing.Add(file);
    }

    /// <summary>Says that measurements of a capture cannot be had, and why; the capture is read without them.</summary>
    public void MissingMeasurements(string file, string reason) => _faults.Add(new FileFault(_file, new CaptureFault(
        0, 0, ProductFaultCodes.FileMissing, $"\"{file}\" could not be read: {reason}")));

    /// <summary>Begins the next of <see cref="Logs"/>; feed the intake, then call <see cref="CloseLog"/>.</summary>
    /// <exception cref="InvalidOperationException">There is none left, or another one is still open.</exception>
    public LogIntake OpenLog() => _openLog is null && _nextLog < Logs.Count
        ? _openLog = new LogIntake(Logs[_nextLog++])
        : throw new InvalidOperationException("No log is needed now.");

    /// <summary>Says that the log that was opened last has ended.</summary>
    /// <exception cref="InvalidOperationException">None is open.</exception>
    public void CloseLog()
    {
        using LogIntake intake = _openLog ?? throw new InvalidOperationException("No log is open.");
        _openLog = null;
        MeasuredLog log = intake.Complete();
        _faults.AddRange(log.Faults.Select(fault => new FileFault(log.Log.File, fault)));
        _logs.Add(log);
    }

    /// <summary>Says that the next of <see cref="Logs"/> cannot be had, and why.</summary>
    /// <exception cref="InvalidOperationException">There is none left.</exception>
    public void MissingLog(string reason)
    {
        string file = _nextLog < Logs.Count ? Logs[_nextLog++].File : throw new InvalidOperationException("No log is needed now.");
        _faults.Add(new FileFault(_file, new CaptureFault(0, 0, ProductFaultCodes.FileMissing, $"\"{file}\" could not be read: {reason}")));
    }

    /// <summary>Says that all files were given, and gives what was learned.</summary>
    public ProductAnalysis Complete()
    {
        IEnumerable<CaptureAnalysis> captures = _read.OfType<CaptureAnalysis>().Concat(_product.Offers.Select(Read));
        return ProductJudgement.Of(
            _file, _product, _label, [.. _furtherLabels.Where(static one => one.Label is not null).Select(one => (one.Name, _aliases.In(one.Label!)))], [.. captures], _logs,
            _faults, _sharing, _rules, Decision, _missing);
    }

    /// <inheritdoc/>
    public void Dispose() => _openLog?.Dispose();

    private CaptureOptions OptionsFor(string file, string? port, ImmutableArray<string> inUse) => new()
    {
        File = file,
        Edition = _edition,
        Rules = _rules,
        Port = port,
        Arrangement = inUse,
        PortName = _aliases.Of,
        Sharing = _sharing,
        CaptiveCable = port is null || _label is { IsUnchecked: true } ? null : CaptiveCable(port),
        PrintedPdp = port is null ? null : PrintedPdp(port),
    };

    // One offer a line: a fault's line is the offer's number.
    private CaptureAnalysis Read(TypedOffers typed)
    {
        CaptureAnalyzer analyzer = new(OptionsFor(typed.Name, typed.Port, typed.InUse));
        analyzer.Write(TypedOfferText.ToCapture(string.Join('\n', typed.List), typed.Complete));
        CaptureAnalysis analysis = analyzer.Complete();
        foreach (CaptureFault fault in analysis.Faults.Where(static fault => fault.Code is FaultCodes.OfferInvalid or FaultCodes.Empty))
        {
            (int line, int column) = typed.Places[(int)fault.Line - 1];
            Fault(line, column, $"{fault.Detail.TrimEnd('.')}; the list is judged as one of which not all was seen");
        }

        return typed.UnderContract == true ? analysis with { AnyContract = true } : analysis;
    }

    private CaptureAnalyzer Analyzer(ProductCapture capture) =>
        new(OptionsFor(capture.File, capture.Port ?? OnlyPort(), capture.InUse) with { Reading = capture.Reading });

    private int[] Next(string file) => _open is null && _nextFile < Files.Count && Files[_nextFile] == file
        ? _places[_nextFile++]
        : throw new InvalidOperationException($"\"{file}\" is not the capture that is needed next.");

    private void UseLabel()
    {
        _label = ReadLabel(_product);
        _aliases = new PortAliases(_product.PortNames, _label);
        _product = _aliases.In(_product);
        _sharing = Sharing();
    }

    private Label? ReadLabel(ProductFile product)
    {
        string? text = string.IsNullOrWhiteSpace(product.Label) ? product.Ratings : product.Label;
        if (string.IsNullOrWhiteSpace(text))
        {
            return null;
        }

        return ReadLabel(text, product.Corrections, product.LabelIsChecked) is { } label ? label with { ByHand = string.IsNullOrWhiteSpace(product.Label) } : null;
    }

    private Label? ReadLabel(string text, ImmutableArray<ProductCorrection> settled, bool isChecked)
    {
        LabelCorrection[] corrections = [.. settled.Select(static one => one.Correction)];
        if (LabelLimits.Excess(text, corrections) is { } excess)
        {
            Fault(0, 0, excess);
            return null;
        }

        Label label = LabelReader.Read(text, corrections, out IReadOnlyList<LabelCorrection> unused);
        foreach (ProductCorrection correction in settled.Where(one => unused.Contains(one.Correction)))
        {
            Fault(
                correction.Line, correction.Column,
                correction.Correction.RatesNothing
                    ? $"the label has nothing in line {correction.Correction.Line}; nothing was corrected"
                    : $"line {correction.Correction.Line} of the label does not have \"{correction.Correction.Printed}\" exactly once; nothing was corrected");
        }

        return label with { IsChecked = isChecked };
    }

    private void Fault(int line, int column, string detail) =>
        _faults.Add(new FileFault(_file, new CaptureFault(line, column, ProductFaultCodes.ValueWrong, detail)));

    private PowerSharing Sharing()
    {
        IEnumerable<string> printed = _label?.Outputs.Select(output => output.Port) ?? [];
        IEnumerable<string> used = _product.Captures.SelectMany(c => c.Port is null ? c.InUse : c.InUse.Add(c.Port))
            .Concat(_product.Offers.SelectMany(static typed => typed.InUse.Add(typed.Port)));
        int ports = printed.Concat(used).DistinctBy(PortNames.Key).Count();
        return ports > 1 ? PowerSharing.Possible
            : _label is { Outputs.Length: 1, IsUnchecked: false } ? PowerSharing.None
            : PowerSharing.Unknown;
    }

    // The label's only output needs no name in the captures.
    private string? OnlyPort() => _label is { Outputs: [{ } only] } ? only.Port : null;

    private bool? CaptiveCable(string port)
    {
        string key = PortNames.Key(port);
        foreach ((string name, bool captive) in _product.CaptivePorts)
        {
            if (PortNames.Key(name) == key)
            {
                return captive;
            }
        }

        return _label?.FindOutput(port)?.IsCaptiveCable == true ? true : null;
    }

    // R3.2v1.1, 10.1: the PDP rating is what the manufacturer prints. Characters that were guessed print nothing, and what only another
    // protocol reaches is no PDP.
    private Power? PrintedPdp(string port)
    {
        PrintedOutput? output = _label?.FindOutput(port);
        PrintedMaximum? maximum = output is null ? null : OtherProtocolRatings.MaximumOfPowerDelivery(output);
        bool isDoubtful = maximum is not null && (_label!.IsDoubtful(maximum.At.Line) || _label.IsDoubtful(output!.At.Line));
        return isDoubtful ? null : maximum?.Power;
    }
}
