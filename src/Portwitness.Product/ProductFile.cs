using System.Collections.Immutable;
using Portwitness.Captures;
using Portwitness.Captures.Formats;
using Portwitness.Labels;
using Portwitness.Product.Claims;
using Portwitness.Product.Controllers;
using Portwitness.Product.Converters;
using Portwitness.Product.Energy;
using Portwitness.Product.Handling;
using Portwitness.Product.Pack;
using Portwitness.Product.Parts;
using Portwitness.Product.Soaks;
using Portwitness.Product.Teardown;

namespace Portwitness.Product;

/// <summary>What a product.yaml says. Whatever is not stated is null or empty.</summary>
public sealed record ProductFile
{
    /// <summary>The product's name.</summary>
    public string Product { get; init; } = "";

    /// <summary>Which sample of the product; empty when it is not stated.</summary>
    public string Sample { get; init; } = "";

    /// <summary>The version of its firmware; empty when it is not stated.</summary>
    public string Firmware { get; init; } = "";

    /// <summary>The printed label; null when none is given, or when a file has it.</summary>
    public string? Label { get; init; }

    /// <summary>File with the label's text, relative to the product file and inside its folder; null when no file is named.</summary>
    public string? LabelFile { get; init; }

    /// <summary>Whether a person has compared the text of a photo with it.</summary>
    public bool LabelIsChecked { get; init; }

    /// <summary>The label's name where there are several; empty otherwise.</summary>
    public string LabelName { get; init; } = "";

    /// <summary>Further labels of the product, in the order of the file.</summary>
    public ImmutableArray<NamedLabel> Labels { get; init; } = [];

    /// <summary>What a person says is printed where the label is unread or doubtful.</summary>
    public ImmutableArray<ProductCorrection> Corrections { get; init; } = [];

    /// <summary>Ratings entered by hand, in a label's words; null when none are.</summary>
    public string? Ratings { get; init; }

    /// <summary>Ports whose cable is stated: captive (true) or detachable (false).</summary>
    public ImmutableDictionary<string, bool> CaptivePorts { get; init; } = ImmutableDictionary<string, bool>.Empty;

    /// <summary>Names that mean one port: the port's own, then the others.</summary>
    public ImmutableArray<ImmutableArray<string>> PortNames { get; init; } = [];

    /// <summary>What ports answer to besides USB PD, as somebody found: port and word (captures/FORMAT.md).</summary>
    public ImmutableArray<(string Port, string Word)> Signalling { get; init; } = [];

    /// <summary>Captures in the order of the file.</summary>
    public ImmutableArray<ProductCapture> Captures { get; init; } = [];

    /// <summary>What ports offer, typed, in the order of the file.</summary>
    public ImmutableArray<TypedOffers> Offers { get; init; } = [];

    /// <summary>Offers on photos of displays; each is one of <see cref="Captures"/>, too.</summary>
    public ImmutableArray<TypedOffers> DisplayPhotos { get; init; } = [];

    /// <summary>Whether any capture is named, also one that may not be read.</summary>
    public bool NamesCaptures { get; init; }

    /// <summary>Logs of what comes out of ports, or goes in, in the order of the file.</summary>
    public ImmutableArray<ProductLog> Logs { get; init; } = [];

    /// <summary>What ports gave under load, as it was read, in the order of the file.</summary>
    public ImmutableArray<LoadReading> Loads { get; init; } = [];

    /// <summary>The cells of a power pack; null when they are not stated.</summary>
    public StatedCells? Cells { get; init; }

    /// <summary>How a power pack is built; null when nothing of it is stated.</summary>
    public PackBuild? Pack { get; init; }

    /// <summary>Measured points of a mains supply.</summary>
    public ImmutableArray<AdapterRun> Adapter { get; init; } = [];

    /// <summary>Parts on the VBUS side.</summary>
    public ImmutableArray<ProductPart> Parts { get; init; } = [];

    /// <summary>Port controllers, as their data sheets state them.</summary>
    public ImmutableArray<ProductController> Controllers { get; init; } = [];

    /// <summary>Converters with the ports that they feed.</summary>
    public ImmutableArray<ProductConverter> Converters { get; init; } = [];

    /// <summary>The ledger of a teardown, in the order of the file.</summary>
    public ImmutableArray<LedgerEntry> Teardown { get; init; } = [];

    /// <summary>Parts of the ledger that can be judged.</summary>
    public ImmutableArray<ProductPart> LedgerParts { get; init; } = [];

    /// <summary>Port controllers of the ledger.</summary>
    public ImmutableArray<ProductController> LedgerControllers { get; init; } = [];

    /// <summary>What a box or a page says beyond the label, in the order of the file.</summary>
    public ImmutableArray<ProductClaim> Claims { get; init; } = [];

    /// <summary>What was read while some ports took power, in the order of the file.</summary>
    public ImmutableArray<LoadReading> PassThrough { get; init; } = [];

    /// <summary>The day on which the product was opened; null when it is not stated.</summary>
    public DateOnly? Opened { get; init; }

    /// <summary>In which state it is.</summary>
    public ProductState State { get; init; }

    /// <summary>The day of its travel card; null when none is asked for.</summary>
    public DateOnly? TravelAsOf { get; init; }

    /// <summary>Marks that were seen on it; null when nobody looked.</summary>
    public ImmutableArray<string>? Marks { get; init; }

    /// <summary>What of it is touched, and of what that is; null where it is not stated.</summary>
    public TouchRow? Touch { get; init; }

    /// <summary>Whether it has anything that can be judged.</summary>
    public bool StatesAnything => NamesCaptures || !string.IsNullOrWhiteSpace(Label) || LabelFile is not null || !string.IsNullOrWhiteSpace(Ratings)
        || !Logs.IsEmpty || !Loads.IsEmpty || !PassThrough.IsEmpty || !Offers.IsEmpty || !Adapter.IsEmpty || !Parts.IsEmpty || !Controllers.IsEmpty || Cells is not null
        || !Teardown.IsEmpty;

    /// <summary>What is wrong with the file, with its place.</summary>
    public ImmutableArray<CaptureFault> Faults { get; init; } = [];
}

/// <summary>A correction of the label and where the product file has it.</summary>
/// <param name="Correction">The correction.</param>
/// <param name="Line">Line of the product file.</param>
/// <param name="Column">Its column.</param>
public sealed record ProductCorrection(LabelCorrection Correction, int Line, int Column);

/// <summary>One capture of a product.</summary>
/// <param name="File">Path relative to the product file, inside its folder.</param>
/// <param name="Port">The captured port; null when the capture's header says it.</param>
/// <param name="InUse">Ports in use, in attach order; empty when the capture's header says it.</param>
public sealed record ProductCapture(string File, string? Port, ImmutableArray<string> InUse)
{
    /// <summary>How the file is read: columns of a table, measurements that are joined in.</summary>
    public CaptureReadOptions Reading { get; init; } = new();

    /// <summary>Whether the file is the photo of a display, and whether somebody has compared what was read off it; null for no photo.</summary>
    public bool? DisplayPhotoChecked { get; init; }

    /// <summary>Whether the product file says that a device had agreed on something before it was read.</summary>
    public bool UnderContract { get; init; }

    /// <summary>The capture on whose clock this one is; null when nothing is said.</summary>
    public string? With { get; init; }

    /// <summary>By how much this one's time 0 is behind that one's, in microseconds; negative before it.</summary>
    public long OffsetUs { get; init; }

    /// <summary>The day on which it was taken, as the product file says; empty where that is for the capture's header to say.</summary>
    public string ReadOn { get; init; } = "";

    /// <summary>File of those measurements, relative to the product file; null for none.</summary>
    public string? MeasurementsFile { get; init; }
}
