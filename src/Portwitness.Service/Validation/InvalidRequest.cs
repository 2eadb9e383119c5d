using Google.Protobuf.WellKnownTypes;
using Google.Rpc;
using Grpc.Core;
using Portwitness.Service.Telemetry;

namespace Portwitness.Service.Validation;

/// <summary>What is wrong with a request, field by field: InvalidArgument with google.rpc.BadRequest in the rich status.</summary>
internal sealed class InvalidRequest
{
    private readonly BadRequest _violations = new();
    private bool _isTooMuch;

    public void Add(string field, string description) =>
        _violations.FieldViolations.Add(new BadRequest.Types.FieldViolation { Field = field, Description = description });

    /// <summary>Something is beyond a limit.</summary>
    public void AddTooMuch(string field, string description)
    {
        _isTooMuch = true;
        Add(field, description);
    }

    public void ThrowIfAny()
    {
        if (_violations.FieldViolations.Count > 0)
        {
            throw ToException();
        }
    }

    public static RpcException Because(string field, string description)
    {
        InvalidRequest request = new();
        request.Add(field, description);
        return request.ToException();
    }

    public static RpcException TooMuch(string field, string description) =>
        Because(field, description).With(RejectionReason.Size);

    private RpcException ToException() => new Google.Rpc.Status
    {
        Code = (int)Code.InvalidArgument,
        Message = string.Join(' ', _violations.FieldViolations.Select(v => $"{v.Field}: {v.Description}")),
        Details = { Any.Pack(_violations) },
    }.ToRpcException().With(_isTooMuch ? RejectionReason.Size : RejectionReason.Invalid);
}
