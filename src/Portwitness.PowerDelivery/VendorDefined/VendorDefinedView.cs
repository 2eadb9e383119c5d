using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.PowerDelivery.VendorDefined;

/// <summary>
/// A Vendor_Defined message, object by object (R3.2v1.1, 6.4.4): its header, what the header says the others are, and
/// the answers to Discover Identity and Discover SVIDs. Nothing is copied or judged.
/// </summary>
/// <remarks>Objects of other SVIDs, and those this library does not know, stay words, <see cref="VendorDataObject"/>.</remarks>
public readonly ref struct VendorDefinedView
{
    private const int IdIndex = 1;
    private const int CertStatIndex = 2;
    private const int ProductIndex = 3;
    private const int FirstProductTypeIndex = 4;
    private const int DiscoverSvids = 2;

    private readonly MessageView message;
    private readonly SopKind sop;

    private VendorDefinedView(MessageView message, SopKind sop)
    {
        this.message = message;
        this.sop = sop;
        Header = new VdmHeader(message.ObjectAt(0));
    }

    /// <summary>The first object.</summary>
    public VdmHeader Header { get; }

    /// <summary>Objects that are there, the header included, 1 to 7.</summary>
    public int Count => message.CompleteObjects;

    /// <summary>Of an answer to Discover Identity; null otherwise or when it is missing.</summary>
    public IdHeader? IdHeader => IdentityWord(IdIndex) is { } raw ? new IdHeader(raw) : null;

    /// <summary>Of an answer to Discover Identity; null otherwise or when it is missing.</summary>
    public CertStat? CertStat => IdentityWord(CertStatIndex) is { } raw ? new CertStat(raw) : null;

    /// <summary>Of an answer to Discover Identity; null otherwise or when it is missing.</summary>
    public ProductVdo? Product => IdentityWord(ProductIndex) is { } raw ? new ProductVdo(raw) : null;

    /// <summary>Number of product type VDOs of an answer to Discover Identity, 0 to 3.</summary>
    public int ProductTypeCount => Header.IsIdentity ? Math.Max(0, Count - FirstProductTypeIndex) : 0;

    /// <summary>Whether this answers Discover SVIDs: <see cref="SvidsAt"/> reads the objects from 1 on.</summary>
    public bool IsSvidList => IsPdAnswer(DiscoverSvids);

    /// <summary>Takes a message apart; false for other messages and for one without a complete header object.</summary>
    public static bool TryRead(scoped in MessageView message, SopKind sop, out VendorDefinedView view)
    {
        bool isOne = message.Header.Kind == MessageKind.VendorDefined && message.CompleteObjects > 0;
        view = isOne ? new VendorDefinedView(message, sop) : default;
        return isOne;
    }

    /// <summary>A product type VDO, counted from 0.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not below <see cref="ProductTypeCount"/>.</exception>
    public uint ProductTypeAt(int index) => (uint)index < (uint)ProductTypeCount
        ? message.ObjectAt(FirstProductTypeIndex + index)
        : throw new ArgumentOutOfRangeException(nameof(index), index, $"There are {ProductTypeCount}.");

    /// <summary>Two SVIDs of an answer to Discover SVIDs; the index is that of the object.</summary>
    /// <exception cref="ArgumentOutOfRangeException">No such object, or it is the header.</exception>
    public SvidPair SvidsAt(int index) => IsSvidList && index > 0
        ? new SvidPair(message.ObjectAt(index))
        : throw new ArgumentOutOfRangeException(nameof(index), index, "There are no SVIDs.");

    /// <summary>The layout of an object, counted from 0; the ID header chooses those of the product type VDOs.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not below <see cref="Count"/>.</exception>
    public BitLayout LayoutAt(int index)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(index);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(index, Count);
        return index switch
        {
            0 => Header.Layout,
            _ when IsSvidList => SvidPair.Layout,
            _ when !Header.IsIdentity => VendorDataObject.Layout,
            IdIndex => VendorDefined.IdHeader.LayoutFor(sop),
            CertStatIndex => VendorDefined.CertStat.Layout,
            ProductIndex => ProductVdo.Layout,
            _ => ProductTypeLayouts.For(Header, IdHeader!.Value, sop, index - FirstProductTypeIndex, ProductTypeCount),
        };
    }

    private bool IsPdAnswer(int command) => Header is { Structured: true, VendorId: VdmHeader.PdSid }
        && Header.Command == command && Header.CommandType == VdmCommandType.Ack;

    private uint? IdentityWord(int index) => Header.IsIdentity && index < Count ? message.ObjectAt(index) : null;
}
