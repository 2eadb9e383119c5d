using System.Text;
using Portwitness.Captures.Input;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Captures.Offers;

/// <summary>
/// Reads a list of offers as a person types it off a display: "5V 3A, 9V 3A, PPS 3.3-11V 5A", with commas, semicolons or one in a line. It
/// makes a Source_Capabilities, or an EPR_Source_Capabilities. What a display does not show is not known: flags, peak currents, Power
/// Limited, and the order, so that objects stand in the standard's (R3.2v1.1, 6.4.1.4). A list without 5 V was not typed whole: its first
/// object is not known.
/// </summary>
internal sealed class OffersReader(ICaptureSink sink, FaultLog faults) : ILineReader
{
    /// <summary>Name of the format.</summary>
    public const string Format = "offers";

    private const int Max = 64;
    private const int RoundedToTenths = 100;

    private readonly List<(Offer Offer, CodedOffer Coded)> _offers = [];
    private long _firstLine;
    private int _unread;
    private bool _isOverfull;
    private bool _begun;
    private bool _isStatedWhole;
    private List<(long Line, string Text)>? _photo;
    private bool _isUnchecked;

    /// <summary>Whether a line, blanks trimmed, begins with an offer.</summary>
    public static bool IsLikely(ReadOnlySpan<byte> line)
    {
        const int longest = 60;
        if (line.IsEmpty || line.StartsWith("#"u8) || line.StartsWith("0x"u8) || line.StartsWith("0X"u8))
        {
            return false;
        }

        // A word that a cut broke is not looked at: an offer is shorter.
        string start = Encoding.UTF8.GetString(line[..Math.Min(line.Length, longest)]);
        if (Heading(start) is not null)
        {
            return true;
        }

        string first = OfferPieces.Of(start).FirstOrDefault().Text ?? "";
        try
        {
            return new OfferReading(first).Next() is not null;
        }
        catch (OfferFaultException)
        {
            return false;
        }
    }

    /// <inheritdoc/>
    public void Read(long line, ReadOnlySpan<byte> text)
    {
        int comment = text.IndexOf((byte)'#');
        string all = Encoding.UTF8.GetString(comment < 0 ? text : text[..comment]);
        if (!_begun && Heading(all.AsSpan().TrimStart()) is { } heading)
        {
            all = all.TrimStart()[heading.Length..];
            _isStatedWhole = heading == TypedOfferText.WholeHeading;
            _isUnchecked = heading == TypedOfferText.PhotoHeading;
            _photo = heading is TypedOfferText.PhotoHeading or TypedOfferText.ComparedPhotoHeading ? [] : null;
        }

        _begun |= all.Length > 0;
        if (_photo is not null)
        {
            _photo.Add((line, all));
            return;
        }

        foreach ((string piece, int column) in OfferPieces.Of(all))
        {
            Read(line, column, piece);
        }
    }

    /// <inheritdoc/>
    public void Skipped(long line)
    {
        // The fault of the line says so.
        _unread++;
    }

    /// <inheritdoc/>
    public void Complete()
    {
        ReadPhoto();
        sink.OnHeader(new CaptureHeader
        {
            Format = Format, CurrentRoundingMilliamperes = Rounding(), ListsMayBeCut = !_isStatedWhole, ListsUnchecked = _isUnchecked,
        });
        if (_offers.Count == 0)
        {
            faults.Report(1, 1, FaultCodes.Empty, FaultText.OffersWithoutOne);
            return;
        }

        // What was not read, and 5 V that was not typed, keep a place of which nothing is known.
        bool hasSafe5V = _offers.Exists(static one => one.Offer is { Kind: PowerObjectKind.Fixed } offer && offer.Minimum == Electrical.Safe5V);
        bool isEpr = _offers.Exists(static one => IsOfEpr(one.Offer));
        CodedOffer[] spr =
        [
            .. hasSafe5V ? [] : (ReadOnlySpan<CodedOffer>)[default],
            .. InOrder(_offers.Where(static one => !IsOfEpr(one.Offer))),
            .. new CodedOffer[Math.Min(_unread, Max)],
        ];
        CodedOffer[] epr = [.. InOrder(_offers.Where(static one => IsOfEpr(one.Offer)))];
        ListedObjects.HandTo(sink, _firstLine, spr, epr, isEpr, isWhole: hasSafe5V && _unread == 0);
    }

    private void Read(long line, int column, string piece)
    {
        try
        {
            foreach (Offer offer in Offer.ReadAll(piece))
            {
                if (_photo is not null && PhotoOffers.Doubt(offer) is { } doubt)
                {
                    throw new OfferFaultException(doubt);
                }

                if (_offers.Count == Max)
                {
                    if (!_isOverfull)
                    {
                        faults.Report(line, column, FaultCodes.OffersTooMany, FaultText.OffersTooMany);
                    }

                    _isOverfull = true;
                    _unread++;
                    return;
                }

                _firstLine = _offers.Count == 0 ? line : _firstLine;
                _offers.Add((offer, SourceOfferCoding.Encode(offer)));
            }
        }
        catch (OfferFaultException fault)
        {
            faults.Report(line, column, FaultCodes.OfferInvalid, FaultText.OfferInvalid(fault.Message));
            _unread++;
        }
    }

    private void ReadPhoto()
    {
        foreach (PhotoLine line in PhotoOffers.Read(_photo ?? []))
        {
            if (line.Note is { } note)
            {
                faults.Report(line.Line, 1, FaultCodes.PhotoRead, FaultText.PhotoNote(note));
            }

            if (line.Problem is { } problem)
            {
                faults.Report(line.Line, 1, FaultCodes.OfferInvalid, FaultText.PhotoProblem(problem));
                _unread++;
            }

            foreach ((string piece, int column) in OfferPieces.Of(line.Text ?? ""))
            {
                Read(line.Line, column, piece);
            }
        }

        if (_isUnchecked)
        {
            faults.Report(1, 1, FaultCodes.PhotoRead, FaultText.PhotoUnchecked);
        }
    }

    // A display that shows hundredths shows them of every current; whoever types leaves zeros out. With tenths at most, it may round to them.
    private int? Rounding() =>
        _offers.Exists(static one => one.Offer.CurrentDecimals is not null) && _offers.TrueForAll(static one => one.Offer.CurrentDecimals is null or <= 1)
            ? RoundedToTenths
            : null;

    private static string? Heading(ReadOnlySpan<char> text) =>
        text.StartsWith(TypedOfferText.PhotoHeading, StringComparison.OrdinalIgnoreCase) ? TypedOfferText.PhotoHeading
        : text.StartsWith(TypedOfferText.ComparedPhotoHeading, StringComparison.OrdinalIgnoreCase) ? TypedOfferText.ComparedPhotoHeading
        : text.StartsWith(TypedOfferText.WholeHeading, StringComparison.OrdinalIgnoreCase) ? TypedOfferText.WholeHeading
        : text.StartsWith(TypedOfferText.Heading, StringComparison.OrdinalIgnoreCase) ? TypedOfferText.Heading
        : null;

    private static bool IsOfEpr(Offer offer) =>
        offer.Kind == PowerObjectKind.EprAvs || (offer.Kind == PowerObjectKind.Fixed && offer.Minimum > Electrical.SprMaximumFixed);

    // R3.2v1.1, 6.4.1.4: fixed by voltage, battery and variable by their minimum, SPR AVS, PPS by its maximum; EPR AVS last.
    private static IEnumerable<CodedOffer> InOrder(IEnumerable<(Offer Offer, CodedOffer Coded)> offers) => offers
        .OrderBy(static one => Rank(one.Offer.Kind))
        .ThenBy(static one => one.Offer.Kind == PowerObjectKind.Pps ? one.Offer.Maximum.Millivolts : one.Offer.Minimum.Millivolts)
        .Select(static one => one.Coded);

    private static int Rank(PowerObjectKind kind) => kind switch
    {
        PowerObjectKind.Fixed => 0,
        PowerObjectKind.Battery => 1,
        PowerObjectKind.Variable => 2,
        PowerObjectKind.SprAvs => 3,
        PowerObjectKind.Pps => 4,
        _ => 5,
    };
}
