using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.Following.Exchanges;

/// <summary>A request, and what it is owed.</summary>
public sealed class Exchange
{
    private Delivery _request;
    private Delivery _answer;

    /// <summary>Whether something is still owed.</summary>
    public bool IsOpen { get; private set; }

    /// <summary>What may answer it.</summary>
    public AnswerRow Row { get; private set; } = null!;

    /// <summary>The request.</summary>
    public ref readonly Delivery Request => ref _request;

    /// <summary>The answer that begins a sequel: Accept, or Enter Acknowledged.</summary>
    public ref readonly Delivery Answer => ref _answer;

    /// <summary>Whether the answer came and its sequel is owed.</summary>
    public bool IsInSequel { get; private set; }

    /// <summary>The power that changes, in a sequel to a request.</summary>
    public PowerStep Step { get; private set; }

    /// <summary>The message that ends the sequel to Accept.</summary>
    public MessageKind Completion => Row.Request == MessageKind.DataReset ? MessageKind.DataResetComplete : MessageKind.PSRDY;

    /// <summary>When the last step of it was acknowledged; -1 when that was not seen.</summary>
    public long AcknowledgedUs => IsInSequel ? Answer.AcknowledgedUs : Request.AcknowledgedUs;

    /// <summary>Whether the other's next MessageID was known when it was asked: only then does an answer that was missed show.</summary>
    public bool OtherIsKnown { get; private set; }

    /// <summary>A request.</summary>
    public void Begin(AnswerRow row, in Delivery request, bool otherIsKnown)
    {
        (IsOpen, Row, IsInSequel, OtherIsKnown) = (true, row, false, otherIsKnown);
        _request = request;
    }

    /// <summary>Its answer, after which more is owed.</summary>
    public void GoOn(in Delivery answer, PowerStep step)
    {
        (IsInSequel, Step) = (true, step);
        _answer = answer;
    }

    /// <summary>Nothing more is owed.</summary>
    public void Close() => IsOpen = false;

    /// <summary>A message of it was acknowledged, or sent again.</summary>
    public void Update(in Delivery delivery)
    {
        if (_request.Index == delivery.Index)
        {
            _request = delivery;
        }
        else if (IsInSequel && _answer.Index == delivery.Index)
        {
            _answer = delivery;
        }
    }
}
